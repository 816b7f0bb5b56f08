import type { ConcentrationUnit, CountFamily } from '@rillmark/casebook/units/quantity.ts'

const FAMILIES: readonly (readonly [CountFamily, RegExp])[] = [
  ['CFU', /(?<!\p{L})(?:cfu|kbe|ufc|kve|k\.?b\.?e\.?|colony[- ]forming units?|colonies|kolonien)(?!\p{L})/iu],
  ['MPN', /(?<!\p{L})(?:mpn|npp|most probable number)(?!\p{L})/iu],
  [
    'GU',
    /(?<!\p{L})(?:gu|gc|ge|gec|ug|copies|genom(?:e|ic)? ?(?:units?|copies|einheiten|kopien)?|unités génomes?|kopien)(?!\p{L})/iu,
  ],
]

const BASES: readonly (readonly [string, RegExp])[] = [
  ['100 mL', /(?:\/|per|pro|par|por|in|_)?\s*100\s*(?:ml|milli?lit(?:er|re)s?)(?!\p{L})/iu],
  ['mL', /(?:\/|per|pro|par|por|_)\s*1?\s*(?:ml|milli?lit(?:er|re)s?)(?!\p{L})/iu],
  ['L', /(?:\/|per|pro|par|por|_)\s*1?\s*(?:l|lit(?:er|re|ro)s?)(?!\p{L})/iu],
  ['L', /(?:\/|per|pro|par|por|_)\s*1000\s*(?:ml)(?!\p{L})/iu],
  ['swab', /(?:\/|per|pro|par|por|_)\s*(?:swab|tupfer|écouvillon|ecouvillon|tampone|hisopo|wattenstaafje)/iu],
]

export type UnitReading =
  | { readonly kind: 'unit'; readonly unit: ConcentrationUnit }
  | { readonly kind: 'doubtful'; readonly words: string }
  | { readonly kind: 'none' }

/** The unit named in a cell or heading, in the words of several languages: CFU/L, KBE/100 ml, UFC/L, Lp_gc_L. */
export function readUnit(text: string): UnitReading {
  const spaced = text.replace(/_/g, ' _').replace(/(?<=\p{L})\s*_(?=l\b|ml\b)/giu, '/')
  const families = FAMILIES.filter(([, pattern]) => pattern.test(spaced.replace(/_/g, ' '))).map(([family]) => family)
  const basis = BASES.find(([, pattern]) => pattern.test(spaced))?.[0]
  const [family, second] = families
  if (family === undefined || basis === undefined) return { kind: 'none' }
  if (second !== undefined) return { kind: 'doubtful', words: `${families.join(' or ')} per ${basis}` }
  return { kind: 'unit', unit: `${family}/${basis}` as ConcentrationUnit }
}
