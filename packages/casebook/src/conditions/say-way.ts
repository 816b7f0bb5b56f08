import { isHeater, isOutlet } from '../building/water-system.ts'
import { counted } from '../units/counted.ts'
import type { Sentence } from './explanation.ts'
import { type ExplainedSide, joinings, litresADay, pieceHours, sum } from './explained-side.ts'
import { placeWords } from './part-words.ts'
import type { SpokenFigures } from './spoken-figures.ts'

interface Saying {
  readonly side: ExplainedSide
  readonly say: SpokenFigures
}

/** What flows at the place: how much a day, how often, how long it stands. */
export function sayFlow({ side, say }: Saying): Sentence[] {
  const { place } = side
  const last = side.pieces.at(-1)
  if (place.neverMoves === true) return [{ about: 'flow', text: 'No water moves here all day.' }]
  if (last === undefined) return comingIn({ side, say })
  const litres = say.litres(litresADay(last))
  if (last.alwaysMoves) return [{ about: 'flow', text: `${litres} a day pass here, and it never stands.` }]
  const often = drawsWords(side)
  const stagnation = `The longest it stands is ${say.hours(place.longestStagnationHours)}.`
  return [{ about: 'flow', text: `${litres} a day come to it${often}. ${stagnation}` }]
}

/** What comes into a heater or tank: fresh water, and water that was round the circulation. */
function comingIn({ side: { explained, id }, say }: Saying): Sentence[] {
  const into = (returned: boolean): number =>
    explained.graph
      .pipesAt(id)
      .filter(({ circuit }) => (returned ? circuit === 'hot-return' : circuit === 'cold'))
      .reduce((total, pipe) => {
        const mean = explained.conditions.pipes[pipe.id]?.flowLPerMin.mean ?? 0
        return total + Math.max(0, pipe.to === id ? mean : -mean)
      }, 0) * MINUTES_A_DAY
  const [fresh, returned] = [into(false), into(true)]
  if (fresh + returned === 0) return []
  const round = returned === 0 ? '' : `, and ${say.litres(returned)} that were round the circulation`
  return [{ about: 'flow', text: `${say.litres(fresh)} of fresh water a day come in${round}.` }]
}

/** How often an outlet is used on the simulated day. */
function drawsWords({ explained, id, component }: ExplainedSide): string {
  if (component === undefined || !isOutlet(component)) return ''
  const outlet = explained.network.outlets[explained.map.components.get(id)?.outlet ?? -1]
  if (outlet === undefined) return ''
  const constant = outlet.draws.some(({ minutes }) => minutes >= MINUTES_A_DAY)
  return constant ? ', drawn all day' : `, in ${counted(outlet.draws.length, 'draw')}`
}

const MINUTES_A_DAY = 1440

/** From where it comes, over how much pipe, and which part of it stands between draws. */
export function sayWay({ side, say }: Saying): Sentence[] {
  const { explained, pieces, standing, moving } = side
  if (pieces.length === 0) return []
  const from = placeWords(explained, side.source)
  const length = say.metres(sum(pieces.map(({ build }) => build.lengthM)))
  const volume = say.litres(sum(pieces.map(({ volumeL }) => volumeL)))
  const still = side.place.neverMoves === true
  const text = `It ${still ? 'would come' : 'comes'} from ${from} through ${length} of pipe that hold ${volume}${byWords(side)}.`
  if (still || standing.length === 0 || moving.length === 0) return [{ about: 'way', text }]
  const at = placeWords(explained, standing[0]?.from ?? '')
  const tail = `Up to ${at} the water always moves; in the last ${say.metres(sum(standing.map(({ build }) => build.lengthM)))} (${say.litres(sum(standing.map(({ volumeL }) => volumeL)))}) it stands between draws.`
  return [{ about: 'way', text: `${text} ${tail}` }]
}

/** The risers and the tanks, pumps and valves it passes, in order. */
function byWords({ explained, pieces }: ExplainedSide): string {
  const passed = pieces.slice(0, -1).flatMap(({ to }) => {
    const component = explained.graph.components.get(to)
    if (component === undefined) return []
    if (component.kind !== 'junction') return [placeWords(explained, to)]
    return component.label === undefined
      ? component.riser === undefined
        ? []
        : [`riser ${component.riser}`]
      : [component.label]
  })
  const names = [...new Set(passed)]
  return names.length === 0
    ? ''
    : `, by ${names.slice(0, MOST_NAMED).join(', ')}${names.length > MOST_NAMED ? ' and others' : ''}`
}

const MOST_NAMED = 4

/** How old it is, and where it spent the time. */
export function sayAge({ side, say }: Saying): Sentence[] {
  const { explained, place, pieces, moving, standing, start, source } = side
  if (place.neverMoves === true)
    return [{ about: 'age', text: `It is at least ${say.hours(place.ageHours.mean)} old: it is never renewed.` }]
  const { mean, min, max } = place.ageHours
  const spread = max - min > SAME_HOURS ? ` (${say.hours(min)} to ${say.hours(max)})` : ''
  const head = `It is ${say.hours(mean)} old on average${spread}`
  if (pieces.length === 0 || start === undefined) return [{ about: 'age', text: `${head}.` }]
  const began = start.ageHours.mean
  const [ran, stood] = [sum(moving.map(pieceHours)), sum(standing.map(pieceHours))]
  const joined = sum(joinings(side).map(({ olderHours }) => Math.max(0, olderHours)))
  const spent = [
    ...(began > SAME_HOURS
      ? [`${say.hours(began)} when it leaves ${placeWords(explained, source)}${heldWords({ side, say })}`]
      : []),
    ...(moving.length > 0 ? [`${say.hours(ran)} on the way that always moves`] : []),
    ...(stood > SAME_HOURS
      ? [
          `${say.hours(stood)} ${moving.length > 0 ? 'where it stands between draws' : 'on the way, moving or standing'}`,
        ]
      : []),
    ...(joined > JOINED_HOURS ? [`${say.hours(joined)} by older water that joins on the way`] : []),
  ]
  return [{ about: 'age', text: spent.length === 0 ? `${head}.` : `${head}: ${spent.join(', ')}.` }]
}

/** Less is not worth a word beside days of age. */
const JOINED_HOURS = 0.5

/** Ages nearer than this are told as one. */
const SAME_HOURS = 0.05

/** What a heater or tank holds, for it is where the hours come from. */
function heldWords({ side, say }: Saying): string {
  const component = side.explained.graph.components.get(side.source)
  if (component === undefined || (!isHeater(component) && component.kind !== 'cold-tank')) return ''
  return component.volumeL === undefined ? '' : `, which holds ${say.litres(component.volumeL)}`
}
