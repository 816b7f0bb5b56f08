import { chainTemperature } from '../custody/chain-temperature.ts'
import { type ConsignmentView, custodyView } from '../custody/custody-view.ts'
import type { SampleCustody } from '../custody/sample-custody.ts'
import { durationWords } from '../custody/time-words.ts'
import { traceWords } from '../custody/trace-words.ts'
import { wallClock } from '../units/local-time.ts'
import type { CustodyState } from '../custody/state.ts'
import { counted } from '../units/counted.ts'
import { showRange } from '../units/display.ts'
import { figureText } from '../units/figure.ts'
import type { ReportContext } from './context.ts'
import type { Block, Row, Section } from './model.ts'
import { column, heading, table, told } from './words.ts'

export function custodySection(context: ReportContext): Section {
  const { state } = context
  const lastMs = Date.parse(state.record.entries.at(-1)?.instant ?? '1970-01-01T00:00:00Z')
  const view = custodyView(state, lastMs)
  const blocks: Block[] = [
    told(
      view.consignments.length === 0
        ? 'No consignment was opened.'
        : `${counted(view.consignments.length, 'consignment')}; ${counted(view.late.length, 'sample')} past the hold time in use; ${counted(view.exceptions.length, 'sample')} the laboratory did not simply accept.`,
    ),
    ...view.consignments.flatMap((box) => consignmentBlocks(context, box)),
    ...(view.loose.length === 0 ? [] : [heading('In no consignment'), looseTable(context, view.loose)]),
  ]
  return { id: 'custody', title: 'Custody of the samples', blocks }
}

function consignmentBlocks(context: ReportContext, box: ConsignmentView): Block[] {
  const { state, cite, units } = context
  const { temperature } = box
  const holds = [
    ...new Map(
      box.samples.flatMap(({ hold }) => (hold === undefined ? [] : [[`${hold.procedure} ${hold.version}`, hold]])),
    ).values(),
  ]
  const cites = [...new Set(holds.flatMap((hold) => [cite(hold.hoursFigure), cite(hold.transport)]))]
  const range =
    temperature.range === undefined
      ? 'no range was set'
      : `${showRange([temperature.range.lowestC, temperature.range.highestC], { unit: '°C', units })} asked for`
  const seen =
    temperature.coldest === undefined || temperature.warmest === undefined
      ? 'none was written down'
      : `${showRange([temperature.coldest.temperatureC, temperature.warmest.temperatureC], { unit: '°C', units })} in ${counted(temperature.readings.length + temperature.traces.reduce((sum, { points }) => sum + points.length, 0), 'reading')}`
  return [
    heading(`Consignment ${box.code}`),
    told(
      `${box.container}, ${counted(box.samples.length, 'sample')}, ${box.stage}. Seal ${box.seal ?? 'none'}${box.sealProblems === 0 ? '' : `; ${counted(box.sealProblems, 'time')} found not intact`}. Temperature: ${seen}; ${range}: ${temperature.judgement}.`,
    ),
    ...temperature.traces.map((trace) => told(traceWords(trace))),
    ...box.doubts.map((doubt) => told(`To be looked at: ${doubt}.`)),
    chainTable(context, box),
    table({
      caption: `${box.code}: samples, hold time and condition on arrival`,
      columns: [
        column('Sample', 2),
        column('Collected', 1.9),
        column('Hold time', 0.9),
        column('Received', 1.9),
        column('Left on arrival', 1.4),
        column('Condition', 1.3),
      ],
      rows: box.samples.map((sample) => sampleRow(context, { sample, box: state.custody.consignments.get(box.code) })),
      none: `${box.code} is empty.`,
    }),
    ...(holds.length === 0
      ? []
      : [
          told(
            `Hold times in use: ${[...new Set(holds.map((hold) => figureText(hold.hoursFigure)))].join('; ')}. ${holds[0]?.meaning ?? ''}`,
            { cites },
          ),
        ]),
  ]
}

function chainTable({ worker, said, numberOfId, redacted, units }: ReportContext, box: ConsignmentView): Block {
  const rows: Row[] = box.chain.map((line) => {
    const number = numberOfId(line.entry)
    return {
      cells: [
        wallClock({ instant: line.at, offset: line.offset }),
        line.what,
        line.from === undefined ? '' : worker(line.from),
        line.to === undefined ? '' : worker(line.to),
        line.sealIntact === undefined ? '' : line.sealIntact ? 'intact' : { text: 'not intact', strong: true },
        chainTemperature(line, units) ?? '',
        [line.signed, line.notes === undefined || !redacted ? line.notes : said(line.notes)].filter(isSaid).join('; '),
      ],
      entries: number === undefined ? [] : [number],
    }
  })
  return table({
    caption: `${box.code}: chain of custody`,
    columns: [
      column('When', 1.8),
      column('What', 1.9),
      column('Given by', 1.5),
      column('Taken by', 1.5),
      column('Seal', 0.8),
      column('Temp.', 0.8),
      column('Note', 1.3),
    ],
    rows,
    none: '',
  })
}

const isSaid = (text: string | undefined): text is string => text !== undefined && text !== ''

function sampleRow(
  { numbersOf, state, said }: ReportContext,
  { sample, box }: { sample: SampleCustody; box: ReturnType<CustodyState['consignments']['get']> },
): Row {
  return {
    cells: [
      {
        text: sample.label,
        mono: true,
        sub: sample.splitOf === undefined ? sample.kindWords : `part of ${sample.splitOf.label}`,
      },
      wallClock({ instant: sample.collectedAt, offset: sample.offset }),
      sample.hold === undefined ? 'none known' : figureText(sample.hold.hoursFigure),
      sample.receivedAt === undefined
        ? 'not received'
        : wallClock({ instant: sample.receivedAt, offset: sample.offset }),
      leftOf(sample),
      sample.condition === undefined
        ? ''
        : {
            text: sample.rejected ? `${sample.condition}, rejected` : sample.condition,
            strong: sample.condition !== 'accepted',
            ...(sample.conditionNotes === undefined ? {} : { sub: said(sample.conditionNotes) }),
          },
    ],
    entries: numbersOf(state.fieldwork.samples.get(sample.label), box?.received),
  }
}

function leftOf({ leftMs, clock }: SampleCustody): string | { text: string; strong: true } {
  if (leftMs === undefined) return 'not known'
  if (clock === 'stopped late' || clock === 'over') return { text: `over by ${durationWords(leftMs)}`, strong: true }
  return clock === 'running' ? `${durationWords(leftMs)} left, on its way` : durationWords(leftMs)
}

function looseTable({ numbersOf, state }: ReportContext, loose: readonly SampleCustody[]): Block {
  return table({
    caption: 'Samples collected that are in no consignment and have no result',
    columns: [column('Sample', 2), column('Kind', 2), column('Collected', 2)],
    rows: loose.map(({ label, kindWords, collectedAt, offset }) => ({
      cells: [{ text: label, mono: true }, kindWords, wallClock({ instant: collectedAt, offset })],
      entries: numbersOf(state.fieldwork.samples.get(label)),
    })),
    none: '',
  })
}
