/** The panel's ports about prices: a page's sold rows on their way into the ledger. Wiring only. */
import type { Vocabulary } from '../../domain/claim/vocabulary.ts'
import type { Inspection } from '../../domain/inspection.ts'
import { salesFromRows } from '../../domain/pricing/sales-from-rows.ts'
import { now } from '../../platform/clock.ts'
import type { PanelPorts } from '../../ui/panel/panel-ports.ts'
import type { ListingState } from '../../ui/panel/panel-state.ts'
import { readWants } from '../price-offer.ts'
import type { Stores } from '../stores.ts'
import type { PanelSession } from './panel-session.ts'

export function createPricePorts(
  session: PanelSession,
  stores: Stores,
): Pick<PanelPorts, 'findRowSales' | 'addSales' | 'takeBackSales'> {
  return {
    async findRowSales() {
      const { results } = session
      if (results === null) return { sales: [], skipped: [] }
      const [{ graders }, isKnown] = await Promise.all([stores.readBook(), stores.ledger.createKnown()])
      return salesFromRows(results.rows, {
        pageUrl: results.url,
        today: now().slice(0, 10),
        knowledge: { graders, vocabulary: session.vocabulary() },
        isKnown,
      })
    },
    addSales: (sales) => stores.ledger.add(sales),
    async takeBackSales(ids) {
      for (const id of ids) await stores.ledger.remove(id)
    },
  }
}

/** A want that the offer fits, and the costs used last. */
export async function pricesOf(
  { listing, claim }: Inspection,
  stores: Stores,
  vocabulary: Vocabulary,
): Promise<Pick<ListingState, 'want' | 'costs'>> {
  const [{ graders }, presets] = await Promise.all([stores.readBook(), stores.costPresets.list()])
  const fits = await readWants(stores, { graders, vocabulary }, now().slice(0, 10))
  const [latest] = presets.toSorted((a, b) => b.updatedAt.localeCompare(a.updatedAt))
  return { want: fits(listing.title ?? '', listing.price, claim), costs: latest ?? null }
}
