import { ageIsLeast } from './age-is-least.ts'
import display from '@rillmark/reference/conditions/display.json' with { type: 'json' }
import { componentName } from '../building/labels.ts'
import { type Component, isOutlet, type WaterSystem } from '../building/water-system.ts'
import { FIELDWORK, thresholdFor } from '../fieldwork/figures.ts'
import { GROWTH_BAND, temperatureBandWords } from '../findings/temperature-band.ts'
import { type DisplayUnits, METRIC_UNITS } from '../units/display-units.ts'
import { showReckoned, showTemperature } from '../units/display.ts'
import type { ComponentConditions, Conditions, PlaceConditions } from './conditions.ts'
import { SIDES, type ShownQuantity, type Side, showPredicted, unitOf } from './shown-quantity.ts'
import { placeOn, sidesOfPlant } from './side-of.ts'

/** The questions a prediction is read by, each an order of places. */
export const RANKINGS = ['warmest-cold', 'coolest-hot', 'oldest', 'no-residual', 'growth-band', 'standing'] as const
export type Ranking = (typeof RANKINGS)[number]

/** One water of one place in a ranking. */
export interface RankedPlace {
  readonly id: string
  readonly side: Side
  readonly name: string
  readonly value: number
  /** Lowest and highest over the day, where the figure has a spread. */
  readonly range?: { readonly lower: number; readonly upper: number }
  /** No water moves: the figure is "at least". */
  readonly atLeast?: true
  /** Counted among those to look at first. */
  readonly counted: boolean
  /** Why it is so, in few words. */
  readonly why: string
}

interface Rule {
  readonly quantity: ShownQuantity
  readonly sides: readonly Side[]
  readonly value: (place: PlaceConditions) => number
  readonly spread?: (place: PlaceConditions) => { min: number; max: number }
  readonly highFirst: boolean
  /** Places other than outlets take part. */
  readonly plant: boolean
  readonly counted: (value: number, place: PlaceConditions) => boolean
}

const { oldFromHours, growthBandFromHours } = display.counted
const COLD = thresholdFor('cold-temperature')
const HOT = thresholdFor('hot-temperature')
/** Less than a field kit tells from nothing. */
const NO_RESIDUAL_MG_PER_L = FIELDWORK.coarsestStepMgPerL

/**
 * Water that stands takes the warmth of the air wherever it stands: hot water is judged by the hottest it gets in the day, cold by the
 * coolest, as a thermometer would after running. How long it stood in between is what the hours of the growth band tell.
 */
const RULES: Readonly<Record<Ranking, Rule>> = {
  'warmest-cold': {
    quantity: 'temperature',
    sides: ['cold'],
    value: ({ temperatureC }) => temperatureC.min,
    spread: ({ temperatureC }) => temperatureC,
    highFirst: true,
    plant: false,
    counted: (value) => value >= COLD.temperatureC,
  },
  'coolest-hot': {
    quantity: 'temperature',
    sides: ['hot'],
    value: ({ temperatureC }) => temperatureC.max,
    spread: ({ temperatureC }) => temperatureC,
    highFirst: false,
    plant: false,
    counted: (value) => value < HOT.temperatureC,
  },
  oldest: {
    quantity: 'age',
    sides: SIDES,
    value: ({ ageHours }) => ageHours.mean,
    spread: ({ ageHours }) => ageHours,
    highFirst: true,
    plant: true,
    counted: (value) => value >= oldFromHours.value,
  },
  'no-residual': {
    quantity: 'residual',
    sides: SIDES,
    value: ({ residualMgPerL }) => residualMgPerL.mean,
    spread: ({ residualMgPerL }) => residualMgPerL,
    highFirst: false,
    plant: true,
    counted: (value) => value < NO_RESIDUAL_MG_PER_L,
  },
  'growth-band': {
    quantity: 'standing',
    sides: SIDES,
    value: ({ hoursInGrowthBand }) => hoursInGrowthBand,
    highFirst: true,
    plant: true,
    counted: (value) => value >= growthBandFromHours.value,
  },
  standing: {
    quantity: 'standing',
    sides: SIDES,
    value: ({ longestStagnationHours }) => longestStagnationHours,
    highFirst: true,
    plant: true,
    counted: (_value, { neverMoves }) => neverMoves === true,
  },
}

/** What the figure of a ranking is: for its column, its unit and its chart. */
export const rankedQuantity = (ranking: Ranking): ShownQuantity => RULES[ranking].quantity

/** What the figure of a ranking is, for the head of its column. */
export function figureWords(ranking: Ranking, units: DisplayUnits = METRIC_UNITS): string {
  const unit = unitOf(RULES[ranking].quantity, units)
  switch (ranking) {
    case 'warmest-cold':
      return `Coolest, ${unit}`
    case 'coolest-hot':
      return `Hottest, ${unit}`
    case 'oldest':
    case 'no-residual':
      return `Mean, ${unit}`
    case 'growth-band':
      return 'Hours a day'
    case 'standing':
      return 'Hours'
  }
}

/** The name of a ranking in the reader's units: `Most hours at 25 to below 45 °C`. */
export function rankingTitle(ranking: Ranking, units: DisplayUnits = METRIC_UNITS): string {
  switch (ranking) {
    case 'warmest-cold':
      return 'Warmest cold'
    case 'coolest-hot':
      return 'Coolest hot'
    case 'oldest':
      return 'Oldest'
    case 'no-residual':
      return 'No residual'
    case 'growth-band':
      return `Most hours at ${temperatureBandWords(GROWTH_BAND, units)}`
    case 'standing':
      return 'Standing longest'
  }
}

/** What is said of water that is counted: `never reaches 50 °C`. */
export function countedWords(ranking: Ranking, units: DisplayUnits = METRIC_UNITS): string {
  switch (ranking) {
    case 'warmest-cold':
      return `never gets below ${showTemperature(COLD.temperatureC, units).words}`
    case 'coolest-hot':
      return `never reaches ${showTemperature(HOT.temperatureC, units).words}`
    case 'oldest':
      return `is ${oldFromHours.value} h old or more in the mean`
    case 'no-residual':
      return `has less than ${NO_RESIDUAL_MG_PER_L} mg/L in the mean`
    case 'growth-band':
      return `spends ${growthBandFromHours.value} h of the day or more there`
    case 'standing':
      return 'does not move all day'
  }
}

export interface RankingInput {
  readonly system: WaterSystem
  readonly conditions: Conditions
  readonly ranking: Ranking
  readonly units?: DisplayUnits
}

/**
 * Every place that takes part in a ranking, the one to look at first on top; equal figures in the order of the description. Outlets
 * take part with the water arriving on each side, vessels and dead ends with their own; junctions only where no water moves.
 */
export function rankPlaces({ system, conditions, ranking, units = METRIC_UNITS }: RankingInput): RankedPlace[] {
  const rule = RULES[ranking]
  // of a supply without a word on its residual, none is no finding
  if (rule.quantity === 'residual' && conditions.residualUnknown === true) return []
  const plantSides = sidesOfPlant(system)
  const rows = system.components.flatMap((component): RankedPlace[] => {
    const found = conditions.components[component.id]
    if (found === undefined || !takesPart(component, { found, rule })) return []
    return rule.sides.flatMap((side) => {
      const place = placeOn(side, { component, conditions: found, plantSides })
      return place === undefined ? [] : [rowOf({ component, side, place, found, rule, units })]
    })
  })
  const sign = rule.highFirst ? -1 : 1
  return rows.toSorted((a, b) => sign * (a.value - b.value))
}

function takesPart(component: Component, { found, rule }: { found: ComponentConditions; rule: Rule }): boolean {
  if (isOutlet(component)) return true
  return rule.plant && (component.kind === 'junction' ? found.neverMoves === true : HOLDS_WATER.has(component.kind))
}

const HOLDS_WATER: ReadonlySet<string> = new Set(['cold-tank', 'storage-heater', 'drain-valve', 'treatment'])

interface Row {
  readonly component: Component
  readonly side: Side
  readonly place: PlaceConditions
  readonly found: ComponentConditions
  readonly rule: Rule
  readonly units: DisplayUnits
}

function rowOf({ component, side, place, found, rule, units }: Row): RankedPlace {
  const value = rule.value(place)
  const spread = rule.spread?.(place)
  return {
    id: component.id,
    side,
    name: componentName(component),
    value,
    ...(spread === undefined ? {} : { range: { lower: spread.min, upper: spread.max } }),
    ...(rule.quantity === 'age' && ageIsLeast(place) ? { atLeast: true as const } : {}),
    counted: rule.counted(value, place),
    why: fewWords({ component, place, found, rule, units }),
  }
}

/** What makes the water so: whether it moves, how long it stands, how much is drawn, how old it arrives. */
function fewWords({ component, place, found, rule, units }: Omit<Row, 'side'>): string {
  if (place.neverMoves === true)
    return component.use?.pattern === 'unused' ? 'not used: no water moves' : 'no water moves here'
  const hours = (value: number): string => showPredicted(value, { quantity: 'age', units }).words
  const words = [
    rule.value === RULES.standing.value ? '' : `stands up to ${hours(place.longestStagnationHours)}`,
    found.drawnLPerDay === undefined
      ? ''
      : `${showReckoned(found.drawnLPerDay, { unit: 'L', units, digits: 3 }).words} drawn a day`,
    rule.quantity === 'age' ? '' : `arrives ${hours(place.ageHours.mean)} old`,
  ]
  return words.filter((one) => one !== '').join(', ')
}
