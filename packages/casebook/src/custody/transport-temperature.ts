import type { Figure } from '../units/figure.ts'
import { happenedAt } from './happened-at.ts'
import {
  coversWindow,
  type LoggerTrace,
  loggerTraces,
  type OutsideTime,
  outsideTime,
  transportWindow,
} from './logger-trace.ts'
import type { SampleCustody } from './sample-custody.ts'
import type { Consignment } from './state.ts'

export interface TransportReading {
  readonly temperatureC: number
  readonly at: string
  readonly offset: string
  readonly where: string
}

/** How warm and how cold a consignment got, against what its samples ask for. */
export interface TransportTemperature {
  readonly readings: readonly TransportReading[]
  readonly warmest: TransportReading | undefined
  readonly coldest: TransportReading | undefined
  /** the range in use: the consignment's own, else the narrowest of its samples' procedures */
  readonly range: { readonly lowestC: number; readonly highestC: number; readonly source: string } | undefined
  readonly disagreeing: readonly Figure[]
  /** what loggers kept, each with the time outside the range where there is one */
  readonly traces: readonly (LoggerTrace & { readonly outside: OutsideTime | undefined })[]
  /** `within` alone only where one logger kept all of the transport; between single readings it may have been anything */
  readonly judgement:
    | 'within'
    | 'within, as far as measured'
    | 'too warm'
    | 'too cold'
    | 'too warm and too cold'
    | 'not logged'
    | 'no range'
}

/** Every temperature logged on a consignment, judged by the range of its samples. */
export function transportTemperature(box: Consignment, samples: readonly SampleCustody[]): TransportTemperature {
  const readings = readingsOf(box)
  const traces = loggerTraces(box)
  const sorted = [...readings, ...traces.flatMap((trace) => extremesOf(box, trace))].sort(
    (a, b) => a.temperatureC - b.temperatureC,
  )
  const coldest = sorted[0]
  const warmest = sorted.at(-1)
  const range = rangeOf(box, samples)
  return {
    readings,
    traces: traces.map((trace) => ({
      ...trace,
      outside: range === undefined ? undefined : outsideTime(trace, { range, window: transportWindow(box) }),
    })),
    warmest,
    coldest,
    range,
    disagreeing: distinct(samples.flatMap(({ hold }) => hold?.disagreeingTransport ?? [])),
    judgement: judge({
      coldest,
      warmest,
      range,
      whole: traces.some((each) => coversWindow(each, transportWindow(box))),
    }),
  }
}

function judge({
  coldest,
  warmest,
  range,
  whole,
}: Pick<TransportTemperature, 'coldest' | 'warmest' | 'range'> & {
  readonly whole: boolean
}): TransportTemperature['judgement'] {
  if (coldest === undefined || warmest === undefined) return 'not logged'
  if (range === undefined) return 'no range'
  const cold = coldest.temperatureC < range.lowestC
  if (warmest.temperatureC > range.highestC) return cold ? 'too warm and too cold' : 'too warm'
  if (cold) return 'too cold'
  return whole ? 'within' : 'within, as far as measured'
}

function rangeOf(box: Consignment, samples: readonly SampleCustody[]): TransportTemperature['range'] {
  const own = box.opened.body.transportC
  if (own !== undefined) return { lowestC: own.lower, highestC: own.upper, source: 'set for this consignment' }
  const holds = samples.flatMap(({ hold }) => hold ?? [])
  const [first] = holds
  if (first === undefined) return undefined
  return {
    lowestC: Math.max(...holds.map(({ lowestC }) => lowestC)),
    highestC: Math.min(...holds.map(({ highestC }) => highestC)),
    source: first.transport.source,
  }
}

function readingsOf(box: Consignment): TransportReading[] {
  return box.events
    .flatMap((event) => {
      const { body } = event
      if (!('temperatureC' in body) || body.temperatureC === undefined) return []
      const where = event.kind === 'temperature.logged' ? event.body.where : WHERE[event.kind]
      return [
        { temperatureC: body.temperatureC, at: happenedAt(event), offset: event.offset, where: where ?? 'logged' },
      ]
    })
    .sort((a, b) => Date.parse(a.at) - Date.parse(b.at))
}

/** A logger's coldest and warmest while samples were in the consignment; before and after it may have lain anywhere. */
function extremesOf(box: Consignment, { points, offset, logger }: LoggerTrace): TransportReading[] {
  const { fromMs, toMs } = transportWindow(box)
  const during = points.filter(({ atMs }) => atMs >= fromMs && atMs <= toMs)
  const sorted = [...during].sort((a, b) => a.temperatureC - b.temperatureC)
  return [sorted[0], sorted.at(-1)].flatMap((point) =>
    point === undefined
      ? []
      : [
          {
            temperatureC: point.temperatureC,
            at: new Date(point.atMs).toISOString(),
            offset,
            where: logger === undefined ? 'on a logger' : `on logger ${logger}`,
          },
        ],
  )
}

const WHERE: Partial<Record<Consignment['events'][number]['kind'], string>> = {
  'consignment.sealed': 'when sealed',
  'consignment.handed-over': 'at hand-over',
  'consignment.accepted': 'when accepted',
  'consignment.received': 'at the laboratory',
}

function distinct(figures: readonly Figure[]): Figure[] {
  return [...new Map(figures.map((figure) => [JSON.stringify(figure), figure])).values()]
}
