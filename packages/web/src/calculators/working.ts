import type { DisplayUnits } from '@rillmark/casebook/units/display-units.ts'
import { type Calculation, cautionsOf } from '@rillmark/science/catalogue/descriptor.ts'
import type { Known } from '@rillmark/science/catalogue/sources.ts'
import { fieldsOf } from '../form/field-spec.ts'
import { lowerFirst } from '../form/label-at.ts'
import { readableResult, valueWords } from './result-rows.ts'

/** What was put in, with presets filled in, and what came out. */
export interface Worked {
  readonly input: Readonly<Record<string, unknown>>
  readonly result: Readonly<Record<string, unknown>>
}

/** A worked calculation and the units it is told in. */
export interface Told {
  readonly worked: Worked
  readonly units: DisplayUnits
}

export const KNOWN_WORDS: Readonly<Record<Known, string>> = {
  seen: 'read in the publication',
  computed: 'recomputed',
  memory: 'from memory: verify before you rely on it',
}

/** One symbol of the formula: what it stands for and the figure put in. */
export interface SymbolRow {
  readonly symbol: string
  readonly standsFor: string
  readonly value: string
}

/** The symbols of a formula with the figures of this calculation. */
export function symbolRows(calculation: Calculation, { worked: { input, result }, units }: Told): readonly SymbolRow[] {
  const labels = labelsOf(calculation)
  return Object.entries(calculation.formula.symbols).map(([symbol, place]) => {
    const path = place.split(' = ')[0] ?? place
    const typed = valuesAt(input, path)
    const found = longer(typed, valuesAt(result, path))
    const named = labels.get(path)
    return {
      symbol,
      standsFor: named === undefined ? fieldNamesToWords(place, labels) : named.label,
      value: found
        .map((value) => valueWords(value, { unit: named?.unit ?? '', units, given: found === typed }))
        .join(', '),
    }
  })
}

type Labels = ReadonlyMap<string, { readonly label: string; readonly unit: string }>

/** A bore given by its size is in the result alone; what was put in is in the input alone. */
function longer(a: readonly unknown[], b: readonly unknown[]): readonly unknown[] {
  return b.length > a.length ? b : a
}

function fieldNamesToWords(text: string, labels: Labels): string {
  return text.replace(/\b[a-z]+[A-Z]\w*/g, (name) => lowerFirst(labels.get(name)?.label ?? name))
}

function labelsOf({ input, output }: Calculation): Labels {
  const labels = new Map<string, { label: string; unit: string }>()
  const walk = (fields: ReturnType<typeof fieldsOf>, above: string): void => {
    for (const { name, label, unit, spec } of fields) {
      const path = `${above}${name}`
      if (!labels.has(path)) labels.set(path, { label, unit })
      if (spec.kind === 'group') walk(spec.fields, `${path}.`)
      if (spec.kind === 'list' && spec.row.kind === 'group') walk(spec.row.fields, `${path}[].`)
    }
  }
  walk(fieldsOf(input), '')
  walk(fieldsOf(output), '')
  return labels
}

/** Every value at a path such as `plates[].colonies` or `product.densityKgPerL`. */
function valuesAt(root: unknown, path: string): readonly unknown[] {
  let found: readonly unknown[] = [root]
  for (const key of path.split('.')) {
    const list = key.endsWith('[]')
    const name = list ? key.slice(0, -2) : key
    const inner = found.map((each) =>
      typeof each === 'object' && each !== null && Object.hasOwn(each, name)
        ? (each as Readonly<Record<string, unknown>>)[name]
        : undefined,
    )
    found = list ? inner.flatMap((each) => (Array.isArray(each) ? (each as unknown[]) : [])) : inner
  }
  return found.flat().filter((value) => value !== undefined)
}

/** The whole working in plain text: to copy, to record, to read aloud. */
export function workingText(calculation: Calculation, { worked, units }: Told): string {
  const { id, version, title, input, output, formula, sources } = calculation
  const symbols = symbolRows(calculation, { worked, units })
  return [
    `${title} (${id}, version ${version})`,
    '',
    'Result',
    ...lines(readableResult({ fields: fieldsOf(output), values: worked.result, units })),
    '',
    'Put in',
    ...lines(readableResult({ fields: fieldsOf(input), values: worked.input, units, given: true })),
    '',
    `Formula: ${formula.text}`,
    ...symbols.map(({ symbol, standsFor, value }) => `  ${symbol}: ${standsFor}${value === '' ? '' : ` = ${value}`}`),
    '',
    'Cautions',
    ...cautionsOf(calculation, worked).map((caution) => `- ${caution}`),
    '',
    'Sources',
    ...sources.map(({ citation, known }) => `- ${citation} (${KNOWN_WORDS[known]})`),
  ].join('\n')
}

function lines({ rows, tables }: ReturnType<typeof readableResult>): readonly string[] {
  const single = rows.map(({ label, words }) => `- ${label}: ${words}`)
  const listed = tables.flatMap(({ label, columns, rows: cells }) => [
    `- ${label}:`,
    ...cells.map(
      (cell, index) =>
        `  ${index + 1}. ${cell.flatMap((words, at) => (words === 'no finite value' ? [] : [`${columns[at]?.label ?? ''} ${words}`])).join('; ')}`,
    ),
  ])
  return [...single, ...listed]
}
