import { type Finding, LAYERS } from '@rillmark/exchange/verify/verdict.ts'
import { verdictWords } from '@rillmark/exchange/verify/verdict-words.ts'
import type { NamedVerdict } from '@rillmark/exchange/verify/verify-files.ts'

/** More faults than this help nobody; the first ones do. */
const MOST_SHOWN = 100

/** One verdict as the page shows it. Everything from the file goes in as text, never as markup. */
export function verdictPart({ name, verdict }: NamedVerdict): HTMLElement {
  const { headline, facts, holds } = verdictWords(verdict)
  const { findings, cautions, sound } = verdict
  const more = findings.length - MOST_SHOWN
  const part = made('section', '', [
    made('p', name),
    made('h2', headline),
    ...(findings.length > 0 ? [made('ul', '', findings.slice(0, MOST_SHOWN).map(faultItem))] : []),
    ...(more > 0 ? [made('p', `and ${more} more`)] : []),
    made(
      'dl',
      '',
      facts.flatMap(([term, value]) => [
        made('dt', term),
        /^[\d:]*[0-9a-f]{64}$/.test(value) ? made('dd', '', [made('code', value)]) : made('dd', value),
      ]),
    ),
    ...(holds === '' ? [] : [made('h3', 'What holds'), made('p', holds)]),
    ...(cautions.length === 0
      ? []
      : [
          made('h3', 'What this can’t tell'),
          made(
            'ul',
            '',
            cautions.map((caution) => made('li', caution)),
          ),
        ]),
  ])
  part.className = sound ? 'verdict' : 'verdict broken'
  part.firstElementChild?.classList.add('file')
  if (findings.length > 0) part.querySelector('ul')?.classList.add('faults')
  part.dataset['verdict'] = JSON.stringify(verdict)
  return part
}

function faultItem({ layer, path, expected, received }: Finding): HTMLElement {
  const where = path === '' ? LAYERS[layer] : `${LAYERS[layer]}: ${path}`
  return made('li', '', [made('b', where), made('span', `expected ${expected}, received ${received}`)])
}

function made(tag: string, text: string, inside: readonly HTMLElement[] = []): HTMLElement {
  const element = document.createElement(tag)
  element.append(text, ...inside)
  return element
}
