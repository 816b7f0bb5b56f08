export interface FieldWords {
  readonly label: string
  readonly hint: string
  readonly unit: string
}

/** Units a field's name may end in, longest first. */
const UNIT_ENDINGS: readonly (readonly [RegExp, string])[] = [
  [/WPerMK$/, 'W/(m K)'],
  [/MgPerL$/, 'mg/L'],
  [/LPerMin$/, 'L/min'],
  [/KgPerL$/, 'kg/L'],
  [/Percent$/, '%'],
  [/Seconds$/, 's'],
  [/Minutes$/, 'min'],
  [/Hours$/, 'h'],
  [/Days$/, 'd'],
  [/Mm$/, 'mm'],
  [/Ml$/, 'mL'],
  [/(?<=[a-z])C$/, '°C'],
  [/(?<=[a-z])M$/, 'm'],
  [/(?<=[a-z])L$/, 'L'],
]

/** What a field is called on screen: its description if the schema has one, else its name in words; the unit stands by itself. */
export function fieldWords(
  name: string,
  { description = '', unit }: { readonly description?: string; readonly unit?: string },
): FieldWords {
  const ending = UNIT_ENDINGS.find(([pattern]) => pattern.test(name))
  if (description === '') {
    const bare = ending === undefined ? name : name.replace(ending[0], '')
    return { label: wordsOfName(bare), hint: '', unit: unit ?? ending?.[1] ?? '' }
  }
  const told = unit === undefined || unit === '' ? description : description.replace(` (${unit})`, '')
  const [label = '', hint = ''] = splitOnce(told)
  return { label: capital(label.replace(/^whether /, '')), hint: capital(hint), unit: unit ?? '' }
}

/** `residualKind` → `Residual kind`. */
export function wordsOfName(name: string): string {
  if (name === 'pH') return name
  const words = name
    .replace(/([a-z\d])([A-Z])/g, '$1 $2')
    .replace(/([A-Z])([A-Z][a-z])/g, '$1 $2')
    .split(/[ _-]+/)
  return capital(
    words.map((word) => (word === word.toUpperCase() && word.length > 1 ? word : word.toLowerCase())).join(' '),
  )
}

/** One row of a list, by the list's name: `plates` → `Plate`, `changes` → `Change`. */
export function rowWord(name: string): string {
  const words = wordsOfName(name)
  return words.endsWith('s') && !words.endsWith('ss') ? words.slice(0, -1) : words
}

/** A value of a choice: `free-chlorine` → `free chlorine`; `2-10` and `en-1057` stay. */
export function choiceWords(value: string): string {
  return /^[a-z]+(-[a-z]+)+$/.test(value) ? value.replaceAll('-', ' ') : value
}

/** The first clause names the field; what follows is help. */
function splitOnce(text: string): readonly string[] {
  const at = /[:;] /.exec(text)
  return at === null ? [text] : [text.slice(0, at.index), text.slice(at.index + 2)]
}

/** Units and symbols such as `mL` and `pH` keep their small letter. */
function capital(text: string): string {
  return /^[a-z][A-Z]/.test(text) ? text : text.charAt(0).toUpperCase() + text.slice(1)
}
