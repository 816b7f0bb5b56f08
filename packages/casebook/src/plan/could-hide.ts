import { upperBoundAfterNegatives } from '@rillmark/science/detection/upper-bound-after-negatives.ts'
import type { PlanContext } from './plan-context.ts'
import { PLANNING } from './planning.ts'
import { comparePlaces } from './positions.ts'
import type { Coverage, Watch } from './scenarios.ts'

/** In words: what a round without any positive could still hide. */
export function couldHide({
  context,
  watch,
  coverage,
}: {
  context: PlanContext
  watch: Watch
  coverage: Coverage
}): string[] {
  const { totals } = watch
  const level = `${Math.round(PLANNING.level * 100)} %`
  if (totals.outlets === 0) return ['The described building has no outlet yet: nothing can be said.']
  const whole = bound(watch, { outlets: totals.outlets, sampled: coverage.outlets })
  const first = `${coverage.outlets} of ${totals.outlets} outlets, none positive, could still hide up to ${whole} colonised (${share(whole, totals.outlets)}), at ${level} confidence.`
  const unseen = [...totals.byRiser.keys()]
    .filter((riser) => (coverage.byRiser.get(riser) ?? 0) === 0)
    .sort(comparePlaces)
  const lines = [first]
  if (unseen.length > 0) lines.push(`No outlet is sampled on ${list(unseen)}: nothing is known there.`)
  const weakest = weakestRiser(watch, coverage)
  if (weakest !== undefined) lines.push(weakest)
  if (context.input.system.components.some(({ kind }) => kind === 'supply-entry') && coverage.coldPlant === 0)
    lines.push('The water as it enters is not sampled: the supply cannot be told from the building.')
  lines.push('A negative speaks for the volume and the method, at that moment; it never means free of Legionella.')
  return lines
}

function weakestRiser(watch: Watch, coverage: Coverage): string | undefined {
  const seen = [...watch.totals.byRiser].flatMap(([riser, outlets]) => {
    const sampled = coverage.byRiser.get(riser) ?? 0
    return sampled === 0 ? [] : [{ riser, outlets, sampled, chance: watch.riserChance(riser, sampled) }]
  })
  const [weakest] = seen.sort((a, b) => a.chance - b.chance || comparePlaces(a.riser, b.riser))
  if (weakest === undefined || watch.totals.byRiser.size < 2) return undefined
  const { riser, outlets, sampled } = weakest
  const hidden = bound(watch, { outlets, sampled })
  return `Least looked at: riser ${riser}. ${sampled} of its ${outlets} outlets, none positive, could still hide up to ${hidden}.`
}

const bound = (watch: Watch, { outlets, sampled }: { outlets: number; sampled: number }): number =>
  upperBoundAfterNegatives({ outlets, sampled, sensitivity: watch.sensitivity, level: PLANNING.level }).upperNumber ??
  outlets

const share = (part: number, whole: number): string => `${Math.round((100 * part) / whole)} %`

const NAMED = 6
function list(risers: readonly string[]): string {
  const named = risers.slice(0, NAMED).join(', ')
  const more = risers.length > NAMED ? ` and ${risers.length - NAMED} more` : ''
  return `${risers.length === 1 ? 'riser' : 'risers'} ${named}${more}`
}
