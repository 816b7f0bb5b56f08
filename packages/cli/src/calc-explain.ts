import type { Calculation } from '@rillmark/science/catalogue/descriptor.ts'
import { type FieldRow, fieldRows } from '@rillmark/science/catalogue/field-rows.ts'
import * as z from 'zod'

/** Everything a descriptor says, as plain JSON with the schemas as JSON Schema. */
export function calculationFacts({ input, output, run: _run, ...facts }: Calculation): object {
  return { ...facts, input: z.toJSONSchema(input, { io: 'input' }), output: z.toJSONSchema(output) }
}

/** The same for a reader at a terminal. */
export function explainCalculation(calculation: Calculation): string {
  const { id, version, title, purpose, formula, sources, cautions, example } = calculation
  return `${[
    `${id}: ${title} (version ${version})`,
    purpose,
    section('Input', fieldRows(calculation.input).map(fieldLine)),
    section('Result', fieldRows(calculation.output).map(fieldLine)),
    section('Formula', [
      formula.text,
      ...Object.entries(formula.symbols).map(([symbol, name]) => `${symbol} = ${name}`),
    ]),
    section(
      'Sources',
      sources.map((source) => `${source.citation} [${source.known}]`),
    ),
    section('Cautions', cautions),
    section('Example input', [JSON.stringify(example.input)]),
    section('Example result', [JSON.stringify(example.output)]),
  ].join('\n\n')}\n`
}

function section(heading: string, lines: readonly string[]): string {
  return [heading, ...lines.map((line) => `  ${line}`)].join('\n')
}

function fieldLine({ path, kind, need, description }: FieldRow): string {
  return `${path}: ${[kind, need].filter((part) => part !== '').join(', ')}. ${description}`
}
