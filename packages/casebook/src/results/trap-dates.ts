import traps from '@rillmark/reference/results/traps.json' with { type: 'json' }
import type { ReadRow } from './read-row.ts'
import { addReason, type Reasons } from './reason.ts'

const DAY_MS = 86_400_000
const SERIAL_EPOCH_MS = Date.UTC(1899, 11, 30)

/**
 * Counts that are the serial number of a calendar day and stand far above every other count of their column: a spreadsheet made a date
 * of a number such as 3.2 and then showed the date as a number.
 */
export function dateSerials(rows: readonly ReadRow[], reasons: Reasons): void {
  for (const column of columnsOf(rows)) {
    const counts = rows.flatMap(({ row, results }) =>
      results.flatMap(({ column: name, reading }) =>
        name === column && reading.kind === 'value' && reading.value.kind === 'count'
          ? [{ row, ...reading.value }]
          : [],
      ),
    )
    const others = counts.filter(({ value }) => !isSerial(value))
    if (others.length < traps.dateSerial.neighbours.value) continue
    const largest = others.reduce((most, { value }) => Math.max(most, value), 0)
    for (const { row, value, unit } of counts) {
      if (!isSerial(value) || value < largest * traps.dateSerial.farFromNeighbours.value) continue
      const date = new Date(SERIAL_EPOCH_MS + value * DAY_MS)
      const was = Number(`${date.getUTCDate()}.${date.getUTCMonth() + 1}`)
      const words = `${value} is the day number of ${date.toISOString().slice(0, 10)}, and no other count here exceeds ${largest}: a spreadsheet may have made it of ${was}`
      addReason(reasons, {
        row,
        column,
        trap: 'date for number',
        blocks: true,
        words,
        suggestion: { kind: 'count', value: was, unit },
      })
    }
  }
}

export function columnsOf(rows: readonly ReadRow[]): string[] {
  return (rows[0]?.results ?? []).map(({ column }) => column)
}

function isSerial(value: number): boolean {
  return Number.isInteger(value) && value >= traps.dateSerial.from.value && value <= traps.dateSerial.to.value
}
