/**
 * The label words of every language at once, for Node, the command line and the background. A page's script carries the English ones
 * alone and asks the background for those of its page.
 */

import cs from './data/labels/cs.json' with { type: 'json' }
import da from './data/labels/da.json' with { type: 'json' }
import de from './data/labels/de.json' with { type: 'json' }
import es from './data/labels/es.json' with { type: 'json' }
import fr from './data/labels/fr.json' with { type: 'json' }
import it from './data/labels/it.json' with { type: 'json' }
import ja from './data/labels/ja.json' with { type: 'json' }
import nl from './data/labels/nl.json' with { type: 'json' }
import no from './data/labels/no.json' with { type: 'json' }
import pl from './data/labels/pl.json' with { type: 'json' }
import pt from './data/labels/pt.json' with { type: 'json' }
import sv from './data/labels/sv.json' with { type: 'json' }
import { type Labels, type Language, registerLabels } from './lexicon.ts'

const ALL: Readonly<Record<Exclude<Language, 'en'>, Labels>> = { de, fr, es, it, nl, pl, pt, ja, sv, da, no, cs }

for (const [language, labels] of Object.entries(ALL)) registerLabels(language as Language, labels)

/** Those of the languages that a page's script does not carry. */
export function labelsOf(languages: readonly string[]): Record<string, Record<string, string[]>> {
  return Object.fromEntries(
    Object.entries(ALL)
      .filter(([language]) => languages.includes(language))
      .map(([language, labels]) => [
        language,
        Object.fromEntries(Object.entries(labels).map(([concept, phrases]) => [concept, [...phrases]])),
      ]),
  )
}
