export interface Sort {
  readonly column: string
  readonly descending: boolean
}

interface Sortable<Row> {
  readonly id: string
  readonly sort?: ((row: Row) => string | number | undefined) | undefined
}

const collator = new Intl.Collator('en', { numeric: true, sensitivity: 'base' })

/** Rows in the order of one column; equal rows keep their order and empty values come last either way. */
export function sorted<Row>(
  rows: readonly Row[],
  { columns, sort }: { readonly columns: readonly Sortable<Row>[]; readonly sort: Sort | undefined },
): readonly Row[] {
  const valueOf = columns.find((column) => column.id === sort?.column)?.sort
  if (valueOf === undefined || sort === undefined) return rows
  const sign = sort.descending ? -1 : 1
  return [...rows].sort((a, b) => compare(valueOf(a), valueOf(b), sign))
}

function compare(a: string | number | undefined, b: string | number | undefined, sign: number): number {
  const emptyA = a === undefined || a === ''
  const emptyB = b === undefined || b === ''
  if (emptyA || emptyB) return Number(emptyA) - Number(emptyB)
  if (typeof a === 'number' && typeof b === 'number') return sign * (a - b)
  return sign * collator.compare(String(a), String(b))
}
