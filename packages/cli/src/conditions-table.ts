import { ageIsLeast } from '@rillmark/casebook/conditions/age-is-least.ts'
import { componentName } from '@rillmark/casebook/building/labels.ts'
import { type Component, isOutlet, type WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { assumptionRange } from '@rillmark/casebook/conditions/assumption-range.ts'
import type {
  Assumption,
  ComponentConditions,
  Conditions,
  PlaceConditions,
} from '@rillmark/casebook/conditions/conditions.ts'
import { inReadersUnits } from '@rillmark/casebook/conditions/in-readers-units.ts'
import type { DisplayUnits } from '@rillmark/casebook/units/display-units.ts'
import { showTemperature } from '@rillmark/casebook/units/display.ts'
import { alignedLines, sectionLines } from './table-lines.ts'

/** As many places as a terminal shows at once. */
const MOST_PLACES = 20

export interface TableOptions {
  units: DisplayUnits
  /** Every place instead of the first. */
  all: boolean
}

interface Row {
  component: Component
  /** The side of an outlet or mixing valve. */
  side: string
  place: PlaceConditions
}

/** Conditions as people read them in a terminal: where to look first on top. */
export function conditionsTable(
  { system, conditions }: { system: WaterSystem; conditions: Conditions },
  { units, all }: TableOptions,
): string {
  const rows = rowsOf(system, conditions)
  const said = (text: string): string => inReadersUnits(text, units)
  const shown = all ? rows : rows.slice(0, MOST_PLACES)
  const lines = [
    `The water of ${system.name} over a repeating day (screening model)`,
    runLine(conditions),
    '',
    'Where to look first, by growth index',
    ...placeLines(shown, { units, residualUnknown: conditions.residualUnknown === true }),
    ...(shown.length < rows.length ? [`${rows.length - shown.length} more places with --all or --json`] : []),
    ...sectionLines(
      'What nothing can be said of',
      conditions.cannotSay.map(({ at, why, needs }) => said(`${at}: ${why}; needs ${needs}`)),
    ),
    ...sectionLines(
      `Filled in or guessed: ${conditions.assumptions.length}`,
      conditions.assumptions.map((one) => assumptionLine(one, units)),
    ),
    ...sectionLines('Cautions', conditions.cautions.map(said)),
  ]
  return `${lines.join('\n')}\n`
}

function runLine({ repeats, daysUntilRepeating, balance, seed }: Conditions): string {
  const settled = repeats
    ? `repeats itself after ${daysUntilRepeating} days`
    : `does not repeat itself after ${daysUntilRepeating} days`
  const percent = (fraction: number): string => `${(fraction * 100).toFixed(3)} %`
  return `${settled} · error of balance: water ${percent(balance.massErrorFraction)}, heat ${percent(balance.energyErrorFraction)} · seed ${seed}`
}

/** Joints are no place to look at: what is there is at the places beyond. */
const PASSED: ReadonlySet<Component['kind']> = new Set(['junction', 'supply-entry'])

function rowsOf({ components }: WaterSystem, conditions: Conditions): Row[] {
  return components
    .flatMap((component) => {
      const place = conditions.components[component.id]
      return place === undefined || PASSED.has(component.kind) ? [] : rowsAt(component, place)
    })
    .sort(
      (a, b) =>
        b.place.growthIndex - a.place.growthIndex ||
        b.place.hoursInGrowthBand - a.place.hoursInGrowthBand ||
        (a.component.id < b.component.id ? -1 : 1),
    )
}

/** An outlet has a row for each side, for what is at its spout is of the moment. */
function rowsAt(component: Component, place: ComponentConditions): Row[] {
  const sides: Row[] = []
  for (const [side, water] of Object.entries(place.circuits ?? {}))
    if (isOutlet(component) && water !== undefined) sides.push({ component, side, place: water })
  return sides.length === 0 ? [{ component, side: '', place }] : sides
}

function placeLines(
  rows: readonly Row[],
  { units, residualUnknown }: { units: DisplayUnits; residualUnknown: boolean },
): string[] {
  const shownC = (temperatureC: number): string =>
    Number(showTemperature(Number(temperatureC.toFixed(2)), units).text).toFixed(1)
  const head = [
    'No',
    'Growth',
    'Place',
    'Id',
    'Side',
    'Floor',
    'Riser',
    `Mean ${units.temperature}`,
    'Low',
    'High',
    'Age h',
    'mg/L',
    'Band h',
    'Still h',
  ]
  const cells = rows.map(({ component, side, place }, index) => [
    String(index + 1),
    place.growthIndex.toFixed(2),
    componentName(component),
    component.id,
    side,
    component.floor === undefined ? '' : String(component.floor),
    component.riser ?? '',
    ...[place.temperatureC.mean, place.temperatureC.min, place.temperatureC.max].map(shownC),
    `${ageIsLeast(place) ? '≥' : ''}${place.ageHours.mean.toFixed(1)}`,
    residualUnknown ? '?' : place.residualMgPerL.mean.toFixed(2),
    place.hoursInGrowthBand.toFixed(1),
    place.longestStagnationHours.toFixed(1),
  ])
  return alignedLines([head, ...cells])
}

function assumptionLine(assumption: Assumption, units: DisplayUnits): string {
  const { text, count, parts } = assumption
  const range = assumptionRange(assumption, units)
  const tried = range === '' ? '' : `; may be ${range}`
  const of = count === 0 || parts.length === 0 ? '' : ` (${count === 1 ? parts[0] : `${count} parts`})`
  return `${inReadersUnits(text, units)}${tried}${of}`
}
