// Writes docs/calculations.md from the descriptors: node scripts/docs-calculations.ts
import { writeFileSync } from 'node:fs'
import { calculations } from '@rillmark/science/catalogue/catalogue.ts'
import type { Calculation } from '@rillmark/science/catalogue/descriptor.ts'
import { type FieldRow, fieldRows } from '@rillmark/science/catalogue/field-rows.ts'

export const calculationsPagePath = new URL('../docs/calculations.md', import.meta.url)

/** The reference page of all calculations, as Markdown. */
export function calculationsPage(): string {
  const list = calculations.map(({ id, title }) => `- [\`${id}\`](#${id}): ${title}`)
  return [
    '# Calculations',
    'Written from the descriptors by `node scripts/docs-calculations.ts`; a test fails when it is out of date. Change the descriptor, not this page.',
    'Each runs as `rillmark calc ID`, as `POST /api/calculations/ID` and on its page of the app. "Known" tells whether a source was read in the publication (seen), recomputed (computed) or is from memory (memory): verify the last before you rely on it.',
    list.join('\n'),
    ...calculations.map(section),
    '',
  ].join('\n\n')
}

function section(calculation: Calculation): string {
  const { id, version, title, purpose, formula, sources, cautions, example } = calculation
  return [
    `## ${id}`,
    `**${title}.** ${purpose} Version ${version}.`,
    `### Input of ${id}`,
    table(fieldRows(calculation.input)),
    `### Result of ${id}`,
    table(fieldRows(calculation.output)),
    `### Method of ${id}`,
    code('text', formula.text),
    Object.entries(formula.symbols)
      .map(([symbol, name]) => `- ${symbol}: ${name}`)
      .join('\n'),
    'Cautions:',
    cautions.map((caution) => `- ${caution}`).join('\n'),
    'Sources:',
    sources.map(({ citation, known }) => `- ${citation} (${known})`).join('\n'),
    'Example:',
    code('json', JSON.stringify(example.input, null, 2)),
    code('json', JSON.stringify(example.output, null, 2)),
  ].join('\n\n')
}

function table(rows: FieldRow[]): string {
  const lines = rows.map(
    ({ path, kind, need, description }) => `| ${[`\`${path}\``, kind, need, description].map(cell).join(' | ')} |`,
  )
  return ['| field | kind | given | what |', '| --- | --- | --- | --- |', ...lines].join('\n')
}

function cell(text: string): string {
  return text.replaceAll('|', '\\|')
}

function code(language: string, text: string): string {
  return `\`\`\`${language}\n${text}\n\`\`\``
}

if (import.meta.main) writeFileSync(calculationsPagePath, calculationsPage())
