import { assumptionRange } from '../conditions/assumption-range.ts'
import { type LatestPrediction, latestPrediction } from '../conditions/latest-prediction.ts'
import type { Conditions } from '../conditions/conditions.ts'
import type { Prediction } from '../conditions/prediction.ts'
import { inReadersUnits } from '../conditions/in-readers-units.ts'
import { predictedLayer } from '../conditions/predicted-layer.ts'
import {
  countedWords,
  type RankedPlace,
  RANKINGS,
  type Ranking,
  rankedQuantity,
  rankingTitle,
  rankPlaces,
} from '../conditions/rankings.ts'
import { recalledConditions } from '../conditions/recalled-conditions.ts'
import { OUTPUT_WORDS } from '../conditions/sensitivity-outputs.ts'
import { SIDES, showPredicted } from '../conditions/shown-quantity.ts'
import type { WaterSystem } from '../building/water-system.ts'
import { counted } from '../units/counted.ts'
import { showReckoned } from '../units/display.ts'
import type { ReportContext } from './context.ts'
import { drawnWith } from './diagram.ts'
import type { Block, Row, Section } from './model.ts'
import { column, heading, numberColumn, table, told } from './words.ts'

/** What the section tells of: the record, the prediction, and the conditions it stands for. */
interface Telling {
  readonly context: ReportContext
  readonly latest: LatestPrediction
  readonly prediction: Prediction
  readonly system: WaterSystem
  readonly conditions: Conditions
  readonly entries: number[]
}

/** The conditions predicted for the building, from the latest prediction of the record; undefined where there is none. */
export function conditionsSection(context: ReportContext): Section | undefined {
  const { state, numbersOf } = context
  const latest = latestPrediction(state)
  const { system } = state.building
  if (latest === undefined || system === undefined) return undefined
  const prediction = latest.entry.body
  const conditions = recalledConditions(system, prediction)
  const telling = { context, latest, prediction, system, conditions, entries: numbersOf(latest.entry) }
  return {
    id: 'conditions',
    title: 'Predicted conditions',
    blocks: [
      ...introduction(telling),
      heading('Places to look at first'),
      rankedTable(telling),
      heading('What the prediction rests on'),
      ...restsOn(telling),
      ...diagrams(telling),
    ],
  }
}

const CAUTION =
  'Computed, not measured. A screening model says where water is likely to be warm, old or unprotected, and where to look first. A place it calls favourable need not be colonised, and one it calls unfavourable may be. Measurements and samples decide.'

function introduction(telling: Telling): Block[] {
  const { context, latest, prediction, entries } = telling
  const { numberOfId, said } = context
  const { massErrorFraction, energyErrorFraction } = prediction.balance
  const of = numberOfId(prediction.system)
  return [
    told(CAUTION, { entries }),
    ...(latest.stale
      ? [
          told(
            latest.changed === 'fitted values'
              ? 'The fitted values changed after this prediction was made: it speaks of the building as it was taken then.'
              : 'The description of the building changed after this prediction was made: it speaks of the building as it was described then.',
            { entries },
          ),
        ]
      : []),
    {
      block: 'facts',
      facts: [
        {
          name: 'Made of',
          text: 'the building as described up to the entry named',
          ...(of === undefined ? {} : { entries: [of] }),
        },
        ...fittedFact(telling),
        { name: 'Draws', text: `one repeating day of random draws, seed ${prediction.seed}`, entries },
        {
          name: 'Repeats',
          text: prediction.repeats
            ? `the day is like the one before after ${counted(Math.ceil(prediction.daysUntilRepeating), 'day')}`
            : 'the day had not come to repeat itself: figures may still drift',
          entries,
        },
        {
          name: 'Balance',
          text: `water lost or gained by the computation ${percentWords(massErrorFraction)}, heat ${percentWords(energyErrorFraction)}`,
          entries,
        },
        ...(prediction.note === undefined ? [] : [{ name: 'Note', text: said(prediction.note), entries }]),
      ],
    },
  ]
}

/** Which fit the values are from, where one was taken over. */
function fittedFact({ context, prediction }: Telling): { name: string; text: string; entries: number[] }[] {
  const fit = context.state.building.fits.find(({ id }) => id === prediction.fit)
  if (fit === undefined) return []
  const { round, inputs } = fit.body
  const text = `${counted(inputs.length, 'value')} fitted to readings of round ${round}, in place of what is described`
  return [{ name: 'With', text, entries: context.numbersOf(fit) }]
}

const LEAST_PERCENT = 0.001

/** A share of an error in percent, never as nothing. */
function percentWords(fraction: number): string {
  const percent = Math.abs(fraction) * 100
  return percent < LEAST_PERCENT ? `less than ${LEAST_PERCENT} %` : `${Number(percent.toPrecision(2))} %`
}

/** Rows a question, of places that pass its mark: enough to plan a walk, few enough to read. Where none does, the first is told all the same. */
const ROWS_A_QUESTION = 4

function rankedTable({ context, system, conditions, entries }: Telling): Block {
  const { units } = context
  const rows = RANKINGS.flatMap((ranking): Row[] => {
    const ranked = rankPlaces({ system, conditions, ranking, units })
    const over = ranked.filter((one) => one.counted).length
    return ranked.slice(0, Math.min(ROWS_A_QUESTION, Math.max(1, over))).map((row, at) => ({
      cells: [
        at > 0
          ? ''
          : {
              text: rankingTitle(ranking, units),
              sub: `${over} of ${ranked.length}: ${countedWords(ranking, units)}`,
              strong: true,
            },
        context.place(row.id),
        row.side,
        figureWords(context, { ranking, row }),
        rangeWords(context, { ranking, row }),
        row.why,
      ],
      entries,
    }))
  })
  return table({
    caption: 'Places to look at first, by question',
    columns: [
      column('Question', 1.9),
      column('Place', 1.7),
      column('Water', 0.7),
      numberColumn('Figure', 1.3),
      column('Over the day', 1.5),
      column('Why', 2.6),
    ],
    rows,
    note: 'Of the water that arrives at the place. Cold water is told by the coolest of the day, hot by the hottest, as a thermometer shows after running; age and residual are means over the day, moving or standing. “At least” where no water moves at all.',
    none: 'No place has a figure.',
  })
}

interface Ranked {
  readonly ranking: Ranking
  readonly row: RankedPlace
}

function figureWords({ units }: ReportContext, { ranking, row }: Ranked): string {
  const { words } = showPredicted(row.value, { quantity: rankedQuantity(ranking), units })
  return row.atLeast === true ? `at least ${words}` : words
}

function rangeWords({ units }: ReportContext, { ranking, row }: Ranked): string {
  if (row.range === undefined || row.atLeast === true) return ''
  const quantity = rankedQuantity(ranking)
  const [low, high] = [row.range.lower, row.range.upper].map((value) => showPredicted(value, { quantity, units }))
  return low === undefined || high === undefined || low.text === high.text ? '' : `${low.text} to ${high.words}`
}

function diagrams({ context, system, conditions }: Telling): Block[] {
  const { units } = context
  return SIDES.flatMap((side) =>
    drawnWith(context, {
      layer: predictedLayer({ system, conditions, quantity: 'temperature', side, units }),
      caption: `Riser diagram with the predicted temperature of the ${side} water, mean over the day, moving or standing; computed, not measured.`,
      mark: 'predicted temperature',
    }),
  )
}

function restsOn({ context, prediction, entries }: Telling): Block[] {
  const { said, placeWords, units } = context
  const { assumptions, cannotSay, cautions, placesLeftOut } = prediction
  const rows = assumptions.map(
    (one): Row => ({
      cells: [{ text: inReadersUnits(one.text, units), sub: one.source }, assumptionRange(one, units), `${one.count}`],
      entries,
    }),
  )
  const gaps = [
    ...cannotSay.map(({ at, why }) => ({
      text: `${placeWords({ words: at, component: at })}: ${said(inReadersUnits(why, units))}`,
      entries,
    })),
    ...(prediction.residualUnknown === true
      ? [
          {
            text: 'Nothing was said of the supply’s residual: no residual is told, and growth is computed as without any.',
            entries,
          },
        ]
      : []),
    ...cautions.map((text) => ({ text: said(inReadersUnits(text, units)), entries })),
    ...(placesLeftOut === 0
      ? []
      : [
          {
            text: `Figures of ${counted(placesLeftOut, 'place')}, the least favourable to growth, were not kept.`,
            entries,
          },
        ]),
  ]
  return [
    table({
      caption: 'Filled in where the description is silent',
      columns: [column('Assumption', 5), column('Could be', 1.6), numberColumn('Parts', 0.7)],
      rows,
      none: 'Nothing had to be filled in.',
    }),
    ...effectsTable({ context, prediction, entries }),
    ...(gaps.length === 0 ? [] : [{ block: 'list' as const, items: gaps }]),
  ]
}

/** What the guesses do to it, by output; nothing where that was not worked out. */
function effectsTable({ context, prediction, entries }: Pick<Telling, 'context' | 'prediction' | 'entries'>): Block[] {
  const { units } = context
  const { effects } = prediction
  if (effects.length === 0) return []
  const rows = [...Map.groupBy(effects, ({ output }) => output)].flatMap(([output, same]) =>
    same.map((one, at): Row => {
      const { words, unit } = OUTPUT_WORDS[output]
      const figure = (value: number | undefined): string =>
        value === undefined ? '' : showReckoned(value, { unit, units, digits: 3 }).words
      return {
        cells: [
          at === 0 ? { text: words, strong: true } : '',
          inReadersUnits(one.text, units),
          figure(one.baseline),
          figure(one.atLower),
          figure(one.atUpper),
        ],
        entries,
      }
    }),
  )
  return [
    table({
      caption: 'What these assumptions move, one at a time from one end of what they could be to the other',
      columns: [
        column('Figure', 2.2),
        column('Moved by', 3.2),
        numberColumn('As taken', 1),
        numberColumn('At the lower end', 1),
        numberColumn('At the upper end', 1),
      ],
      rows,
      none: '',
    }),
  ]
}
