import table from '@rillmark/reference/conditions/explanation.json' with { type: 'json' }
import { isHeater } from '../building/water-system.ts'
import { thresholdFor } from '../fieldwork/figures.ts'
import { GROWTH_BAND } from '../findings/temperature-band.ts'
import type { Cause } from './explanation.ts'
import {
  type ExplainedSide,
  fastestMPerS,
  joinings,
  litresADay,
  lostK,
  pieceHours,
  pieceLostK,
  sum,
} from './explained-side.ts'
import type { TravelledPiece } from './explained-system.ts'
import { pipeWords, placeWords } from './part-words.ts'
import type { SpokenFigures } from './spoken-figures.ts'
import { neverFlows, NO_FLOW_L_PER_MIN } from './water-way.ts'

const FROM = table.figures
const HOT_AT_OUTLETS_C = thresholdFor('hot-temperature').temperatureC

interface Finding {
  readonly side: ExplainedSide
  readonly say: SpokenFigures
}

type FindCause = (finding: Finding) => Cause[]

/**
 * What makes the water of a place as it is, as far as the simulation shows it there. A cause is named only where its own effect on
 * this water passes a mark; nothing is named because it is usual.
 */
export function findCauses(finding: Finding): Cause[] {
  const { side } = finding
  if (side.place.neverMoves === true) return nothingMoves(finding)
  const finders = side.circuit === 'cold' ? COLD : HOT
  return finders.flatMap((find) => find(finding))
}

const nothingMoves: FindCause = ({ side }) => {
  const unused = side.component?.use?.pattern === 'unused'
  const still = side.pieces.filter(({ day }) => neverFlows(day)).map(({ pipe }) => pipe.id)
  const text = unused
    ? 'Nobody uses it, and no circulation passes: nothing moves the water.'
    : 'Nothing is drawn beyond it and no circulation passes: nothing moves the water.'
  return [{ id: 'nothing-moves', text, parts: [...still, side.id] }]
}

const stands: FindCause = ({ side, say }) => {
  const { longestStagnationHours } = side.place
  if (longestStagnationHours < FROM.standsFromHours.value) return []
  const parts = side.standing.map(({ pipe }) => pipe.id)
  return [{ id: 'stands', text: `Water stands here for up to ${say.hours(longestStagnationHours)}.`, parts }]
}

/** The set point of a heater as it was simulated. */
function setPointC({ explained, source }: ExplainedSide): number | undefined {
  const node = explained.network.nodes[explained.map.components.get(source)?.node ?? -1]
  return node?.kind === 'vessel' || node?.kind === 'heater' ? node.setpointC : undefined
}

const heater: FindCause = ({ side, say }) => {
  const { explained, source, start } = side
  const component = explained.graph.components.get(source)
  const setC = setPointC(side)
  if (component === undefined || !isHeater(component) || start === undefined || setC === undefined) return []
  const name = placeWords(explained, source)
  const leavesC = start.temperatureC.mean
  if (setC - leavesC >= FROM.leastDropK.value)
    return [
      {
        id: 'heater-not-hot',
        text: `${name} is set to ${say.limit(setC)}, but gives ${say.degrees(leavesC)} on average.`,
        parts: [source],
      },
    ]
  const stores = component.kind === 'storage-heater'
  const wantedC = stores ? FROM.storedHotFromC.value : HOT_AT_OUTLETS_C
  if (setC >= wantedC) return []
  const text = `${name} is set to ${say.limit(setC)}, below the ${say.limit(wantedC)} ${stores ? 'hot water is stored at' : 'asked of hot water at outlets'}.`
  return [{ id: 'low-set-point', text, parts: [source] }]
}

/** A heater or tank that holds more than a day's draw. */
const largeStore: FindCause = ({ side, say }) => {
  const { explained, source, start } = side
  const kind = explained.graph.components.get(source)?.kind
  if ((kind !== 'storage-heater' && kind !== 'cold-tank') || start === undefined) return []
  const fresh = explained.graph.pipesAt(source).flatMap((pipe) => {
    const day = pipe.circuit === 'cold' ? explained.conditions.pipes[pipe.id] : undefined
    const into = pipe.to === source ? 1 : -1
    return day === undefined || day.flowLPerMin.mean * into <= NO_FLOW_L_PER_MIN ? [] : [day]
  })
  const hours = start.ageHours.mean - Math.min(...fresh.map(({ end }) => end.ageHours.mean))
  if (fresh.length === 0 || hours < FROM.oldHeaterHours.value) return []
  const daily = sum(fresh.map(({ flowLPerMin }) => Math.abs(flowLPerMin.mean))) * MINUTES_A_DAY
  const text = `Water is ${say.hours(start.ageHours.mean)} old by the time it leaves ${placeWords(explained, source)}: ${say.litres(daily)} of fresh water a day come in.`
  return [{ id: kind === 'cold-tank' ? 'large-tank' : 'large-heater', text, parts: [source] }]
}

/** Water that is mixed, on purpose, to what Legionella grows in. */
const tempered: FindCause = ({ side, say }) => {
  const { explained, source, start } = side
  const leavesC = start?.temperatureC.mean
  if (explained.graph.components.get(source)?.kind !== 'mixing-valve' || leavesC === undefined) return []
  if (leavesC < GROWTH_BAND.from || leavesC >= GROWTH_BAND.below) return []
  const text = `${placeWords(explained, source)} sends it out at ${say.degrees(leavesC)}, between ${say.limit(GROWTH_BAND.from)} and ${say.limit(GROWTH_BAND.below)}, where Legionella grows.`
  return [{ id: 'tempered', text, parts: [source] }]
}

const MINUTES_A_DAY = 1440

/** A return that leaves the way (or the riser it is on) and does not move, while the water of the way stands. */
const loopStopped: FindCause = ({ side }) => {
  const { explained, pieces, standing } = side
  const joints = new Set(pieces.flatMap(({ from, to }) => [from, to]))
  const risers = new Set([...joints].flatMap((id) => explained.graph.components.get(id)?.riser ?? []))
  const onTheWay = explained.returns.filter(
    ({ from, riser }) => joints.has(from) || (riser !== undefined && risers.has(riser)),
  )
  const still = onTheWay.filter(({ pipes }) =>
    pipes.every((id) => {
      const day = explained.conditions.pipes[id]
      return day !== undefined && neverFlows(day)
    }),
  )
  const shared = standing.filter(({ to }) => explained.graph.components.get(to)?.kind === 'junction')
  if (still.length === 0 || shared.length === 0) return []
  const [leg] = still
  const where = leg?.riser === undefined ? '' : ` of riser ${leg.riser}`
  const text = `The return${where} does not move, so the hot water on the way here is not kept moving.`
  return [{ id: 'loop-stopped', text, parts: still.flatMap(({ pipes }) => pipes) }]
}

const isBare = ({ pipe }: TravelledPiece): boolean => pipe.insulationMm === 0

/** Bare pipe in the part that never stands: there the loss is the pipe's, not the standing's. */
const uninsulated: FindCause = ({ side, say }) => {
  const bare = side.moving.filter(isBare)
  const lost = sum(bare.map(pieceLostK))
  const all = lostK(side.moving)
  if (bare.length === 0 || lost < FROM.leastDropK.value || lost < FROM.leastShare.value * all) return []
  const [first] = bare.toSorted((a, b) => pieceLostK(b) - pieceLostK(a))
  const length = sum(bare.map(({ build }) => build.lengthM))
  const text = `${say.metres(length)} of the way are not insulated and take ${say.kelvin(lost)} of the ${say.kelvin(all)} lost while it moves${first === undefined ? '' : `, most in the ${pipeWords(side.explained, first.pipe)}`}.`
  return [{ id: 'uninsulated', text, parts: bare.map(({ pipe }) => pipe.id) }]
}

/** More is lost round the loop than it should be, and bare pipe is not why. */
const weakLoop: FindCause = (finding) => {
  const { side, say } = finding
  const lost = lostK(side.moving)
  if (lost <= FROM.mostLoopDropK.value || uninsulated(finding).length > 0) return []
  const slowest = side.moving.toSorted((a, b) => Math.abs(a.day.flowLPerMin.mean) - Math.abs(b.day.flowLPerMin.mean))[0]
  const text = `The part that always moves loses ${say.kelvin(lost)}, more than the ${say.kelvin(FROM.mostLoopDropK.value)} a circulation should: too little goes round for what the pipes lose.`
  return [{ id: 'weak-loop', text, parts: slowest === undefined ? [] : [slowest.pipe.id] }]
}

const longRunOut: FindCause = (finding) => {
  const { side, say } = finding
  const litres = sum(side.standing.map(({ volumeL }) => volumeL))
  const rests = side.place.longestStagnationHours >= FROM.restsFromHours.value
  const cools = lostK(side.standing) >= FROM.leastDropK.value
  if (litres <= FROM.mostStandingL.value || !rests || !cools || loopStopped(finding).length > 0) return []
  const length = sum(side.standing.map(({ build }) => build.lengthM))
  const text = `${say.metres(length)} of the way, holding ${say.litres(litres)}, are reached by no circulation: the water there cools whenever nothing is drawn.`
  return [{ id: 'long-run-out', text, parts: side.standing.map(({ pipe }) => pipe.id) }]
}

/** A pipe that even the greatest flow of the day crosses slowly, and in which the water spends much of its age. */
const oversized: FindCause = ({ side, say }) => {
  const slow = side.pieces.filter(
    (piece) => piece.build.boreMm >= FROM.wideFromBoreMm.value && fastestMPerS(piece) < FROM.slowBelowMPerS.value,
  )
  const hours = sum(slow.map(pieceHours))
  const [largest] = slow.toSorted((a, b) => pieceHours(b) - pieceHours(a))
  const aged = side.place.ageHours.mean - (side.start?.ageHours.mean ?? 0)
  if (largest === undefined || hours < FROM.standsFromHours.value || hours < aged / 2) return []
  const litres = sum(slow.map(({ volumeL }) => volumeL))
  const text = `Pipes on the way are wide for what is drawn: ${say.litres(litres)} that move no faster than ${say.speed(fastestMPerS(largest))}, and the water spends ${say.hours(hours)} in them.`
  return [{ id: 'oversized', text, parts: slow.map(({ pipe }) => pipe.id) }]
}

/** Less is drawn in a day than the last pipe holds, as of cold water at a sink that is used hot. */
const littleDrawn: FindCause = ({ side, say }) => {
  const last = side.pieces.at(-1)
  if (last === undefined || last.alwaysMoves || litresADay(last) >= last.volumeL) return []
  const text = `Only ${say.litres(litresADay(last))} of it are drawn in a day, less than the ${say.litres(last.volumeL)} the last pipe holds.`
  return [{ id: 'little-drawn', text, parts: [last.pipe.id] }]
}

/** Cold water that is warm because warm water joins it: from a return, or across a mixer. */
const warmWaterJoins: FindCause = ({ side, say }) => {
  const joined = joinings(side).toSorted((a, b) => b.warmerK - a.warmerK)[0]
  const all = side.place.temperatureC.mean - (side.start?.temperatureC.mean ?? side.place.temperatureC.mean)
  if (joined === undefined || joined.warmerK < FROM.leastDropK.value) return []
  if (joined.warmerK < FROM.leastShare.value * all) return []
  const text = `Warmer water joins it at ${placeWords(side.explained, joined.at)} and warms it by ${say.kelvin(joined.warmerK)}.`
  return [{ id: 'warm-water-joins', text, parts: [joined.at] }]
}

/** The temperature of the supply as it was simulated. */
function supplyC({ explained: { network, system } }: ExplainedSide): number {
  const node = network.nodes.find(({ kind }) => kind === 'source')
  return node?.kind === 'source' ? node.temperatureC : system.supply.temperatureC
}

const warmSupply: FindCause = ({ side, say }) => {
  const entersC = supplyC(side)
  if (entersC < FROM.coldBelowC.value) return []
  return [{ id: 'warm-supply', text: `The supply itself enters at ${say.limit(entersC)}.`, parts: [] }]
}

const warmTank: FindCause = ({ side, say }) => {
  const { explained, source, start } = side
  if (explained.graph.components.get(source)?.kind !== 'cold-tank' || start === undefined) return []
  const gained = start.temperatureC.mean - supplyC(side)
  if (gained < FROM.leastDropK.value) return []
  const text = `${placeWords(explained, source)} warms the water by ${say.kelvin(gained)} before it sets out.`
  return [{ id: 'warm-tank', text, parts: [source] }]
}

/** Air too warm for cold water along the pieces that warm it. */
const warmAir: FindCause = ({ side, say }) => {
  const warm = side.pieces.filter(({ build }) => build.ambientC >= FROM.warmAirFromC.value)
  const gained = sum(warm.map((piece) => -pieceLostK(piece)))
  const all = side.place.temperatureC.mean - (side.start?.temperatureC.mean ?? side.place.temperatureC.mean)
  const [most] = warm.toSorted((a, b) => pieceLostK(a) - pieceLostK(b))
  if (most === undefined || gained < FROM.leastDropK.value || gained < FROM.leastShare.value * all) return []
  const text = `The ${pipeWords(side.explained, most.pipe)} lies in air of ${say.limit(most.build.ambientC)}, which warms the water by ${say.kelvin(gained)}.`
  return [{ id: 'warm-air', text, parts: warm.map(({ pipe }) => pipe.id) }]
}

const noResidualSupplied: FindCause = ({ side }) => {
  const node = side.explained.network.nodes.find(({ kind }) => kind === 'source')
  if (node?.kind !== 'source' || node.residualMgPerL > 0 || side.explained.conditions.residualUnknown === true)
    return []
  return [{ id: 'no-residual-supplied', text: 'The supply brings no residual.', parts: [] }]
}

const HOT: readonly FindCause[] = [
  heater,
  loopStopped,
  uninsulated,
  weakLoop,
  longRunOut,
  stands,
  oversized,
  littleDrawn,
  largeStore,
  tempered,
  noResidualSupplied,
]
const COLD: readonly FindCause[] = [
  warmSupply,
  warmTank,
  largeStore,
  warmAir,
  warmWaterJoins,
  stands,
  oversized,
  littleDrawn,
  noResidualSupplied,
]
