import type { OutletDay, PipeDay, PlaceDay, SimulatedDay, Spread } from '@rillmark/science/network/day-result.ts'
import type { Arriving, Compiled, PlacedComponent, PlacedPipe } from './compiled.ts'
import type { ComponentConditions, Conditions, PipeConditions, PlaceConditions } from './conditions.ts'

/** What was simulated of the network, by the parts of the description it was made from. */
export function conditionsOf(compiled: Compiled, { day, seed }: { day: SimulatedDay; seed: number }): Conditions {
  const { map, assumptions, cannotSay, cautions, residualKnown } = compiled
  const components = [...map.components].map(([id, placed]) => [id, componentConditions(day, placed)] as const)
  const pipes = [...map.pipes].map(([id, placed]) => [id, pipeConditions(day, placed)] as const)
  return {
    components: Object.fromEntries(components),
    pipes: Object.fromEntries(pipes),
    balance: day.balance,
    daysUntilRepeating: day.daysUntilRepeating,
    repeats: day.repeats,
    assumptions,
    cannotSay,
    cautions: [...SCREENING, ...(day.repeats ? [] : [UNSETTLED]), ...(addsUp(day) ? [] : [UNBALANCED]), ...cautions],
    seed,
    ...(residualKnown ? {} : { residualUnknown: true as const }),
  }
}

const SCREENING = [
  'A screening model: it shows where to look first. It does not replace a measurement, and no reading here is a test result.',
  'The growth index orders places by what favours growth; it is no count and no chance of finding Legionella.',
]
const UNSETTLED =
  'The day had not come to repeat itself when the limit of days was reached: old water is older than shown.'

/** What water and heat may fail to add up by, as a share of what comes in. */
const MOST_ERROR_FRACTION = 0.001
const UNBALANCED =
  'Water or heat does not add up to 0.1 %: mixing valves or returns are joined in a way that is not simulated well. Look at how they are described.'

const addsUp = ({ balance }: SimulatedDay): boolean =>
  Math.max(balance.massErrorFraction, balance.energyErrorFraction) <= MOST_ERROR_FRACTION

function componentConditions(day: SimulatedDay, placed: PlacedComponent): ComponentConditions {
  const circuits = circuitsOf(day, placed)
  const sides = Object.values(circuits).filter((side) => side !== undefined)
  if (placed.node !== undefined) {
    const own = placeConditions(nodeDay(day, placed.node))
    return sides.length === 0 ? own : { ...own, circuits }
  }
  const spout = placed.outlet === undefined ? undefined : day.outlets[placed.outlet]
  return { ...ofSpout(spout, sides), circuits, ...drawn(spout) }
}

function circuitsOf(day: SimulatedDay, { circuits }: PlacedComponent): NonNullable<ComponentConditions['circuits']> {
  const found = Object.entries(circuits).map(
    ([circuit, node]) => [circuit, placeConditions(nodeDay(day, node))] as const,
  )
  return Object.fromEntries(found) as Partial<Record<Arriving, PlaceConditions>>
}

/** The water at the spout while it runs; what is about standing and growth is the worst of the sides. Nothing drawn: all from the sides. */
function ofSpout(spout: OutletDay | undefined, sides: readonly PlaceConditions[]): PlaceConditions {
  const water = spout ?? {
    ageHours: together(sides.map((side) => side.ageHours)),
    temperatureC: together(sides.map((side) => side.temperatureC)),
    residualMgPerL: together(sides.map((side) => side.residualMgPerL)),
  }
  return {
    ageHours: water.ageHours,
    temperatureC: water.temperatureC,
    residualMgPerL: water.residualMgPerL,
    hoursInGrowthBand: worst(sides.map((side) => side.hoursInGrowthBand)),
    longestStagnationHours: worst(sides.map((side) => side.longestStagnationHours)),
    growthIndex: worst(sides.map((side) => side.growthIndex)),
    ...(sides.every((side) => side.neverMoves === true) ? { neverMoves: true as const } : {}),
  }
}

const drawn = (spout: OutletDay | undefined): Pick<ComponentConditions, 'drawnLPerDay' | 'minutesBelowUse'> =>
  spout === undefined ? { drawnLPerDay: 0 } : { drawnLPerDay: spout.drawnL, minutesBelowUse: spout.minutesBelowUseC }

const worst = (figures: readonly number[]): number => figures.reduce((most, one) => Math.max(most, one), 0)

/** Of several waters side by side: the mean of the means between the least and the greatest of all. */
function together(spreads: readonly Spread[]): Spread {
  return {
    mean: spreads.reduce((sum, { mean }) => sum + mean, 0) / Math.max(spreads.length, 1),
    min: spreads.reduce((least, { min }) => Math.min(least, min), Number.POSITIVE_INFINITY),
    max: spreads.reduce((most, { max }) => Math.max(most, max), Number.NEGATIVE_INFINITY),
  }
}

function pipeConditions(day: SimulatedDay, { pipe, turned }: PlacedPipe): PipeConditions {
  const found: PipeDay | undefined = day.pipes[pipe]
  if (found === undefined) throw new RangeError(`Cannot tell of a pipe because it was not simulated: got ${pipe}`)
  const { flowLPerMin, velocityMPerS, heatLossW, end } = found
  return {
    flowLPerMin: turned ? against(flowLPerMin) : flowLPerMin,
    velocityMPerS: turned ? against(velocityMPerS) : velocityMPerS,
    heatLossW,
    end: placeConditions(end),
  }
}

/** The same flow, told along the other way; 0 stays 0. */
const against = ({ mean, min, max }: Spread): Spread => ({ mean: 0 - mean, min: 0 - max, max: 0 - min })

function nodeDay(day: SimulatedDay, node: number): PlaceDay {
  const found = day.nodes[node]
  if (found === undefined) throw new RangeError(`Cannot tell of a place because it was not simulated: got ${node}`)
  return found
}

function placeConditions(place: PlaceDay): PlaceConditions {
  const { ageHours, temperatureC, residualMgPerL, hoursInGrowthBand, longestStagnationHours, growthIndex } = place
  const figures = { ageHours, temperatureC, residualMgPerL, hoursInGrowthBand, longestStagnationHours, growthIndex }
  return place.neverMoves ? { ...figures, neverMoves: true } : figures
}
