import type { FieldReading, FieldReadingRow, FieldReadingsFile } from './field-reading.ts'
import { readingSd } from './reading-sd.ts'

/** The readings of a file as a fit takes them, each named by its line from 1. */
export const readingsOfFile = ({ readings }: FieldReadingsFile): FieldReading[] =>
  readings.map((row, index) => readingOfRow(row, String(index + 1)))

function readingOfRow(row: FieldReadingRow, id: string): FieldReading {
  const { component, circuit, temperatureC, residualMgPerL, seconds, at, sd } = row
  const quantity = temperatureC === undefined ? 'residual' : 'temperature'
  const given = temperatureC ?? residualMgPerL ?? 0
  const value = typeof given === 'number' ? given : 'below' in given ? given.below : given.above
  return {
    id,
    component,
    circuit,
    quantity,
    value,
    ...(typeof given === 'number' ? {} : { beyond: 'below' in given ? ('below' as const) : ('above' as const) }),
    ...(seconds === undefined ? {} : { seconds }),
    ...(at === undefined ? {} : { clockMinute: minuteOf(at) }),
    sd: sd ?? readingSd({ quantity, value }),
  }
}

/** Minutes after midnight of a time of day such as 07:30. */
export const minuteOf = (clock: string): number => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3, 5))
