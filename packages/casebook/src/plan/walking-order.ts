import type { WaterSystem } from '../building/water-system.ts'
import type { Stop } from './plan-file.ts'
import { comparePlaces } from './positions.ts'

export interface TeamWalk {
  readonly stops: readonly Stop[]
  readonly teamMinutes: readonly number[]
}

/**
 * Stops in the order they are walked: the supply first; then the outlets floor by floor upwards, riser by riser, room by room; the
 * heaters and returns last, because their drains run water through the hot system and every first flush must come before that.
 * Blanks are spread over the walk. Teams share it in unbroken stretches, the longest as short as can be.
 */
export function walk(of: {
  system: WaterSystem
  stops: readonly Stop[]
  blanks: readonly Stop[]
  teams: number
}): TeamWalk {
  const kinds = new Map(of.system.components.map(({ id, kind }) => [id, kind]))
  const phase = ({ component, samples }: Stop): number => {
    const kind = kinds.get(component ?? '')
    if (kind === 'supply-entry' || kind === 'treatment' || kind === 'cold-tank') return 0
    return samples.some(({ sampleKind }) => sampleKind === 'first-flush-swab') ? 1 : 2
  }
  const keyed = of.stops.map((stop) => ({ stop, phase: phase(stop) }))
  keyed.sort((a, b) => a.phase - b.phase || compareStops(a.stop, b.stop))
  const walked = withBlanks(
    keyed.map(({ stop }) => stop),
    of.blanks,
  )
  return shareOut(walked, of.teams)
}

const compareStops = (a: Stop, b: Stop): number =>
  (a.floor ?? 0) - (b.floor ?? 0) ||
  comparePlaces(a.riser ?? '', b.riser ?? '') ||
  comparePlaces(a.room ?? '', b.room ?? '') ||
  comparePlaces(a.title, b.title) ||
  comparePlaces(a.id, b.id)

/** Each blank is opened at a sampled point, so it follows one. */
function withBlanks(stops: readonly Stop[], blanks: readonly Stop[]): Stop[] {
  const every = stops.length / (blanks.length + 1)
  const walked = [...stops]
  blanks.forEach((blank, index) => {
    const after = Math.min(stops.length, Math.max(1, Math.round(every * (index + 1))))
    const before = stops[after - 1]
    const place = before?.floor === undefined ? {} : { floor: before.floor }
    walked.splice(after + index, 0, { ...blank, ...place })
  })
  return walked
}

function shareOut(stops: readonly Stop[], teams: number): TeamWalk {
  const limit = shortestLongest(
    stops.map(({ minutes }) => minutes),
    teams,
  )
  const teamMinutes = [0]
  const shared = stops.map((stop): Stop => {
    const so = teamMinutes.at(-1) ?? 0
    if (so > 0 && so + stop.minutes > limit + 1e-9 && teamMinutes.length < teams) teamMinutes.push(0)
    teamMinutes[teamMinutes.length - 1] = (teamMinutes.at(-1) ?? 0) + stop.minutes
    return { ...stop, team: teamMinutes.length }
  })
  return { stops: shared, teamMinutes }
}

/** The least limit under which the stretches of the walk number no more than the teams. */
function shortestLongest(minutes: readonly number[], teams: number): number {
  const total = minutes.reduce((sum, one) => sum + one, 0)
  let low = Math.max(0, ...minutes)
  let high = total
  const stretches = (limit: number): number => {
    let count = 1
    let so = 0
    for (const one of minutes) {
      if (so > 0 && so + one > limit + 1e-9) {
        count += 1
        so = 0
      }
      so += one
    }
    return count
  }
  for (let turn = 0; turn < 40 && high - low > 0.01; turn++) {
    const middle = (low + high) / 2
    if (stretches(middle) <= teams) high = middle
    else low = middle
  }
  return stretches(low) <= teams ? low : high
}
