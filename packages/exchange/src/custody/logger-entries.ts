import { SERIES_LIMITS } from '@rillmark/casebook/custody/kinds.ts'
import type { BodyOf } from '@rillmark/casebook/entry/kinds.ts'
import type { LoggerReading } from './logger-csv.ts'

/** The entries a logger's readings make: one, or pieces of at most 2,000 readings each, together all of them. */
export function loggerEntries(
  readings: readonly LoggerReading[],
  about: { consignment: string; file: { name: string; sha256: string }; logger?: string | undefined },
): BodyOf<'temperature.logged'>[] {
  const of = Math.ceil(readings.length / SERIES_LIMITS.readings)
  return Array.from({ length: of }, (_, index) => {
    const part = readings.slice(index * SERIES_LIMITS.readings, (index + 1) * SERIES_LIMITS.readings)
    const startMs = part[0]?.atMs ?? 0
    return {
      consignment: about.consignment,
      series: {
        ...(about.logger === undefined ? {} : { logger: about.logger }),
        file: about.file,
        startedAt: new Date(startMs).toISOString(),
        seconds: part.map(({ atMs }) => (atMs - startMs) / 1000),
        temperatureC: part.map(({ temperatureC }) => temperatureC),
        ...(of === 1 ? {} : { piece: { number: index + 1, of } }),
      },
    }
  })
}
