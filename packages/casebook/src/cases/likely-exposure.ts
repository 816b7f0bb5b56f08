import published from '@rillmark/reference/incubation/models.json' with { type: 'json' }
import { daysBetween } from '@rillmark/science/calendar/iso-date.ts'
import { exposureInput } from '@rillmark/science/incubation/exposure-fields.ts'
import { type ExposureTime, exposureTime } from '@rillmark/science/incubation/exposure-time.ts'
import type { CasesState } from './state.ts'
import { caseWindows } from './windows.ts'

/** When one source would have exposed every case at one time, reckoned from their onsets alone. */
export interface LikelyExposure {
  readonly cases: number
  /** days between the first and the last onset */
  readonly apartDays: number
  readonly day: string
  readonly from: string
  readonly to: string
  readonly level: number
  /** whether one moment of exposure explains onsets so far apart */
  readonly fits: ExposureTime['fits']
  /** what was put into the calculation, to open it with */
  readonly input: { readonly onsets: readonly { readonly from: string }[]; readonly models: readonly object[] }
}

/** With fewer, a time would only repeat the windows of the cases. */
const FEWEST_ONSETS = 3
const MODELS = published.models.map(({ id }) => ({ family: 'published', id }))

/** What is put into `exposure-time`: the onsets known, in order, and the published incubation models together. */
export function exposureFigures(state: CasesState): LikelyExposure['input'] {
  const onsets = caseWindows(state).flatMap(({ entry }) => entry.body.onsetDate ?? [])
  return { onsets: onsets.map((from) => ({ from })), models: MODELS }
}

/** The likeliest time of exposure by one source, once three onsets are known; the published incubation times together. */
export function likelyExposure(state: CasesState): LikelyExposure | undefined {
  const input = exposureFigures(state)
  const { onsets } = input
  const [first, last] = [onsets[0], onsets.at(-1)]
  if (onsets.length < FEWEST_ONSETS || first === undefined || last === undefined) return undefined
  const checked = exposureInput.safeParse(input)
  if (!checked.success) return undefined
  const { mostLikelyDay, interval, fits, level } = exposureTime(checked.data)
  return {
    cases: onsets.length,
    apartDays: daysBetween(first.from, last.from),
    day: mostLikelyDay,
    from: dayOf(interval.lower),
    to: dayOf(interval.upper),
    level,
    fits,
    input,
  }
}

const dayOf = (moment: string): string => moment.slice(0, 'YYYY-MM-DD'.length)
