/**
 * What the screens of sales, wants and ceilings ask of the world outside. A port rejects with a `Fault`; whatever may take longer than a
 * moment tells how far it is and can be cancelled.
 */
import type { Claim } from '../../domain/claim.ts'
import type { Money } from '../../domain/money.ts'
import type { CostPreset } from '../../domain/pricing/ceiling.ts'
import type { CsvColumns } from '../../domain/pricing/csv-columns.ts'
import type { SaleMark } from '../../domain/pricing/sale-marks.ts'
import type { CsvPlan, CsvSurvey } from '../../domain/pricing/sales-csv.ts'
import type { RowSales } from '../../domain/pricing/sales-from-rows.ts'
import type { Want } from '../../domain/pricing/want.ts'
import type { Said, Sale, Valuation } from '../../domain/valuation.ts'

export interface Working {
  readonly signal: AbortSignal
  /** Share done, 0–1. */
  readonly onProgress: (share: number) => void
}

/** What became of sales that were to be added. */
export interface Added {
  readonly added: number
  /** In the ledger already. */
  readonly known: number
  /** A sale that another source had told already, folded into it. */
  readonly merged: number
}

export interface SurveyedCsv extends CsvSurvey {
  /** This very file was added before. */
  readonly addedBefore: { readonly at: string; readonly added: number } | null
}

export interface CheckedCsv {
  readonly ready: number
  readonly known: number
  readonly faultCount: number
  /** The first of them. */
  readonly faults: readonly { readonly line: number; readonly fault: Said }[]
  readonly first: readonly Sale[]
}

export interface RatesHeld {
  readonly days: number
  readonly oldest: string | null
  readonly newest: string | null
  readonly currencies: readonly string[]
}

export interface Valued {
  readonly claim: Claim
  /** `null`: the ledger is empty. */
  readonly valuation: Valuation | null
}

type Kept<T> = T & { readonly id: string }

export interface LedgerPorts {
  /** Places of the sales in the ledger's order, the newest first; with words, those that fit. */
  listSalePlaces(query: string): Promise<Uint32Array>
  /** The sales at some places, in their order. */
  readSales(places: readonly number[]): Promise<readonly Sale[]>
  readSalesById(ids: readonly string[]): Promise<readonly Sale[]>
  addSales(sales: readonly Sale[]): Promise<Added>
  deleteSale(id: string): Promise<void>
  restoreSale(id: string): Promise<void>
  /** Two that were folded together are two again, and stay so. */
  partSales(kept: string, other: string): Promise<void>
  joinSales(kept: string, other: string): Promise<void>

  listSaleMarks(): Promise<readonly Kept<SaleMark>[]>
  markSale(mark: SaleMark): Promise<string>
  liftMark(id: string): Promise<void>
  restoreMark(id: string): Promise<void>

  surveyCsv(file: File, columns: CsvColumns | null, working: Working): Promise<SurveyedCsv>
  /** Reads the whole file by the plan and writes nothing. */
  checkCsv(file: File, plan: CsvPlan, working: Working): Promise<CheckedCsv>
  /** All of it or nothing; cancelled or failed, it is taken back. */
  importCsv(file: File, plan: CsvPlan, working: Working): Promise<Added & { readonly id: string }>
  takeBackImport(id: string): Promise<void>

  /** Sales that the buyer's own dossiers tell of: listings kept that were sold. */
  salesOfDossiers(working: Working): Promise<RowSales>

  describeRates(): Promise<RatesHeld>
  /** Euro reference rates as the European Central Bank publishes them. */
  importRates(
    file: File,
  ): Promise<{ readonly days: number; readonly faults: readonly { readonly line: number; readonly fault: string }[] }>
  saveRate(day: string, currency: string, perEuro: string): Promise<void>
  forgetRates(): Promise<void>

  valueWords(words: string, ask: Money | null): Promise<Valued>

  listWants(): Promise<readonly Kept<Want>[]>
  saveWant(want: Want, id: string | null): Promise<void>
  deleteWant(id: string): Promise<void>
  restoreWant(id: string): Promise<void>

  listCostPresets(): Promise<readonly Kept<CostPreset>[]>
  /** Returns its id. */
  saveCostPreset(preset: CostPreset, id: string | null): Promise<string>
  deleteCostPreset(id: string): Promise<void>
  restoreCostPreset(id: string): Promise<void>
}
