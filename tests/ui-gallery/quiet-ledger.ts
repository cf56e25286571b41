/** Ports of sales, wants and ceilings that answer from samples, for pictures; a test replaces the ones that it watches. */
import type { CostPreset } from '../../src/domain/pricing/ceiling.ts'
import { createCsvSurvey } from '../../src/domain/pricing/sales-csv.ts'
import { said } from '../../src/domain/pricing/words.ts'
import type { LedgerPorts } from '../../src/ui/ledger/ledger-ports.ts'
import { inspection, sales, valuation } from './samples.ts'

const nothing = async () => {}

export const costs: CostPreset & { readonly id: string } = {
  id: 'c1',
  name: 'Lamplight, sent home',
  terms: {
    currency: 'EUR',
    premium: { tiers: [{ upTo: null, percent: '20' }], minimum: '0' },
    shipping: '18',
    insurancePercent: '1',
    tax: { percent: '19', base: 'premium' },
    dutyPercent: '0',
    paymentPercent: '1.5',
  },
  grading: { fee: '40', shipping: '12' },
  marginPercent: '10',
  increments: [
    { from: '0', step: '5' },
    { from: '500', step: '25' },
  ],
  ratesOf: '2026-09-01',
}

export const quietLedgerPorts: LedgerPorts = {
  listSalePlaces: async (query) => Uint32Array.from(query === '' ? sales.keys() : [0, 1]),
  readSales: async (places) => places.map((place) => sales[place]!),
  readSalesById: async (ids) => sales.filter(({ id }) => ids.includes(id)),
  addSales: async (added) => ({ added: added.length, known: 0, merged: 0 }),
  deleteSale: nothing,
  restoreSale: nothing,
  partSales: nothing,
  joinSales: nothing,
  listSaleMarks: async () => [{ id: 'm1', kind: 'sale', sale: 's3', reason: 'sold with three other cards' }],
  markSale: async () => 'm2',
  liftMark: nothing,
  restoreMark: nothing,
  async surveyCsv() {
    const survey = createCsvSurvey()
    survey.add(['Date', 'Title', 'Price', 'Seller'])
    survey.add(['03/04/2026', '1931 Skerryball Stars #14 Odo Marrable KVX 7', '1,120.00', 'heron_cards'])
    return { ...survey.result(), rows: 16, addedBefore: null }
  },
  checkCsv: async () => ({
    ready: 12,
    known: 2,
    faultCount: 2,
    faults: [
      { line: 7, fault: said('fault.no-amount', { text: 'on request' }) },
      { line: 11, fault: said('fault.no-day', { text: '2026-02-30' }) },
    ],
    first: sales.slice(0, 3),
  }),
  importCsv: async () => ({ id: 'i1', added: 12, known: 2, merged: 0 }),
  takeBackImport: nothing,
  salesOfDossiers: async () => ({
    sales: sales.slice(0, 2),
    skipped: [{ title: 'Lot of 12 cards', why: said('skip.lot') }],
  }),
  describeRates: async () => ({
    days: 250,
    oldest: '2025-11-20',
    newest: '2026-11-19',
    currencies: ['CHF', 'GBP', 'USD'],
  }),
  importRates: async () => ({ days: 250, faults: [] }),
  saveRate: nothing,
  forgetRates: nothing,
  valueWords: async () => ({ claim: inspection.claim, valuation }),
  listWants: async () => [
    {
      id: 'w1',
      words: '1931-32 Skerryball Stars #17 Odo Marrable',
      condition: 'graded',
      gradeFrom: 5,
      gradeTo: 7,
      most: { amount: '1500', currency: 'EUR' },
      note: 'centred, no stain on the back',
    },
    {
      id: 'w2',
      words: '1958 Insects of the Fen Lantern Hawker',
      condition: 'raw',
      gradeFrom: null,
      gradeTo: null,
      most: null,
      note: '',
    },
  ],
  saveWant: nothing,
  deleteWant: nothing,
  restoreWant: nothing,
  listCostPresets: async () => [costs],
  saveCostPreset: async () => 'c1',
  deleteCostPreset: nothing,
  restoreCostPreset: nothing,
}
