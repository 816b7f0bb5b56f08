import type { Mapping } from '@rillmark/casebook/results/kinds.ts'
import type { RawTable } from '@rillmark/casebook/results/raw-table.ts'
import type { ResultsState } from '@rillmark/casebook/results/state.ts'
import { guessMapping } from './guess-mapping.ts'

export interface ProposedMapping {
  readonly mapping: Mapping
  /** the earlier file it is remembered from, if it is */
  readonly from?: { readonly fileName: string; readonly laboratory: string }
}

/** How to read this table: as the laboratory's last file with the same columns was read, else by a guess from the headings. */
export function proposeMapping(
  table: RawTable,
  earlier: { results: ResultsState; laboratory?: string; fileName?: string },
): ProposedMapping {
  const known = new Set(table.headers)
  const fitting = earlier.results.imports.filter(({ body }) =>
    columnsOf(body.mapping).every((header) => known.has(header)),
  )
  const last = fitting.findLast(
    ({ body }) =>
      earlier.laboratory === undefined || earlier.laboratory === '' || body.laboratory === earlier.laboratory,
  )
  if (last === undefined) return { mapping: withPrefix(guessMapping(table), earlier.fileName) }
  return {
    mapping: withPrefix(last.body.mapping, earlier.fileName),
    from: { fileName: last.body.fileName, laboratory: last.body.laboratory },
  }
}

/** Labels made of row numbers would be the same in every file, so they begin with the name of the file they stand in. */
function withPrefix(mapping: Mapping, fileName: string | undefined): Mapping {
  if ((mapping.labelFrom ?? []).length === 0 || fileName === undefined) return mapping
  return {
    ...mapping,
    labelPrefix: fileName
      .replace(/\.[^.]*$/, '')
      .slice(0, MOST_PREFIX)
      .trim(),
  }
}

const MOST_PREFIX = 30

function columnsOf(mapping: Mapping): string[] {
  return [
    ...Object.values(mapping.columns),
    ...(mapping.results ?? []).map(({ column }) => column),
    ...(mapping.labelFrom ?? []),
  ]
}
