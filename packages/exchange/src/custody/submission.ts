import { type ConsignmentView, custodyView } from '@rillmark/casebook/custody/custody-view.ts'
import type { SampleCustody } from '@rillmark/casebook/custody/sample-custody.ts'
import { wallClock } from '@rillmark/casebook/units/local-time.ts'
import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import { type DisplayUnits, METRIC_UNITS } from '@rillmark/casebook/units/display-units.ts'
import { showRange } from '@rillmark/casebook/units/display.ts'
import { figureText } from '@rillmark/casebook/units/figure.ts'

/** One sample as the laboratory is told of it. */
export interface SubmittedSample {
  readonly label: string
  readonly round: string
  readonly kind: string
  readonly place: string
  /** local date and time, as on the wall where it was taken */
  readonly collected: string
  readonly offset: string
  readonly volumeMl: number | undefined
  readonly neutralizer: 'added' | 'none noted'
  /** local time by which its examination should begin */
  readonly examineBy: string | undefined
  /** label of the sample it was divided from */
  readonly splitOf: string | undefined
}

/** What goes with a consignment: its samples, its chain of custody so far, and how it should travel. */
export interface Submission {
  readonly investigation: string
  readonly title: string
  readonly consignment: string
  readonly container: string
  readonly seal: string | undefined
  readonly transport: string | undefined
  readonly hold: string | undefined
  readonly samples: readonly SubmittedSample[]
  readonly chain: ConsignmentView['chain']
  /** the moment of the last thing written about it */
  readonly asOf: string
}

/** The submission of one consignment as the record stands; the last opened one where none is named. Says nothing of cases. */
export function submissionOf(
  state: InvestigationState,
  asked: { consignment?: string | undefined; units?: DisplayUnits | undefined },
): Submission | { issues: Issue[] } {
  const codes = [...state.custody.consignments.keys()]
  const code = asked.consignment ?? codes.at(-1)
  const box = code === undefined ? undefined : state.custody.consignments.get(code)
  const view = custodyView(state, 0).consignments.find((each) => each.code === code)
  if (box === undefined || view === undefined) {
    const expected = codes.length === 0 ? 'an opened consignment; none is opened yet' : `one of ${codes.join(', ')}`
    return { issues: [issue('consignment', { expected, received: asked.consignment })] }
  }
  const { range } = view.temperature
  const hold = view.samples.find((sample) => sample.hold !== undefined)?.hold
  return {
    investigation: state.investigation,
    title: state.brief.opened?.body.title ?? state.investigation,
    consignment: view.code,
    container: view.container,
    seal: view.seal,
    transport:
      range === undefined
        ? undefined
        : `${showRange([range.lowestC, range.highestC], { unit: '°C', units: asked.units ?? METRIC_UNITS })} (${range.source})`,
    hold:
      hold === undefined ? undefined : `${figureText(hold.hoursFigure)} from collection (${hold.hoursFigure.source})`,
    samples: view.samples.map(submitted),
    chain: view.chain,
    asOf: box.events.at(-1)?.instant ?? box.opened.instant,
  }
}

function submitted(sample: SampleCustody): SubmittedSample {
  const { label, round, kindWords, place, collectedAt, offset, volumeMl, neutralized, deadlineMs, splitOf } = sample
  return {
    label,
    round,
    kind: kindWords,
    place,
    collected: wallClock({ instant: collectedAt, offset }),
    offset,
    volumeMl,
    neutralizer: neutralized ? 'added' : 'none noted',
    splitOf: splitOf?.label,
    examineBy:
      deadlineMs === undefined ? undefined : wallClock({ instant: new Date(deadlineMs).toISOString(), offset }),
  }
}
