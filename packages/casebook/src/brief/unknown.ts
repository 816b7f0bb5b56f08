import { deviceName } from '../building/devices.ts'
import { knownByOf } from '../building/water-system.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { counted } from '../units/counted.ts'
import type { BriefLine } from './brief-view.ts'

/** What nobody knows yet and the record shows the gap of, then the questions people wrote down. */
export function unknown(state: InvestigationState): BriefLine[] {
  return [...casesUnknown(state), ...buildingUnknown(state), ...comparisonUnknown(state), ...questions(state)]
}

function casesUnknown({ cases }: InvestigationState): BriefLine[] {
  const all = [...cases.cases.values()].filter(({ body }) => body.classification !== 'not a case')
  const noOnset = all.filter(({ body }) => body.onsetDate === undefined)
  const noPlace = all.filter(({ body }) => !cases.exposures.some((exposure) => exposure.body.caseCode === body.code))
  const codes = (some: typeof all): string => some.map(({ body }) => body.code).join(', ')
  return [
    ...(noOnset.length > 0 ? [line(`Onset of ${codes(noOnset)}`, 'cases')] : []),
    ...(noPlace.length > 0 ? [line(`Where ${codes(noPlace)} met water`, 'cases')] : []),
  ]
}

function buildingUnknown({ building }: InvestigationState): BriefLine[] {
  const { system, sweep } = building
  if (system === undefined) return []
  const guessed = [...system.components, ...system.pipes].filter(
    (part) => knownByOf(part, 'default') === 'guessed',
  ).length
  const unlooked = [...sweep.values()]
    .filter(({ body }) => body.state === 'not looked at')
    .map(({ body }) => deviceName(body.device))
  return [
    ...(system.supply.disinfectant.kind === 'unknown'
      ? [line('What disinfectant reaches the building', 'building')]
      : []),
    ...(guessed > 0 ? [line(`${counted(guessed, 'part')} of the water system rest on a guess`, 'building')] : []),
    ...(sweep.size === 0 ? [line('Which devices wet the air: nobody has looked', 'building')] : []),
    ...(unlooked.length > 0 ? [line(`Not looked at: ${unlooked.join(', ')}`, 'building')] : []),
  ]
}

/** Without an isolate from a case nothing found in the building can be compared with the ill. */
function comparisonUnknown({ cases, results }: InvestigationState): BriefLine[] {
  const all = [...cases.cases.values()].filter(({ body }) => body.classification !== 'not a case')
  if (all.length === 0) return []
  const asked = all
    .filter(({ body }) => body.isolate === 'asked for' || body.isolate === 'not known')
    .map(({ body }) => body.code)
  const fromCases = [...results.isolates.values()].filter(({ body }) => body.from.origin === 'case').length
  return [
    ...(asked.length > 0 ? [line(`Whether an isolate of ${asked.join(', ')} can be had`, 'cases')] : []),
    ...(fromCases === 0
      ? [line('No isolate of a case is recorded: no comparison with the building is possible yet', 'results')]
      : []),
  ]
}

function questions({ brief }: InvestigationState): BriefLine[] {
  return brief.notes
    .filter(({ id, body }) => body.purpose === 'open question' && !brief.settled.has(id))
    .map(({ body }) => line(body.text, body.about ?? 'brief'))
}

function line(words: string, step: BriefLine['step']): BriefLine {
  return { words, step }
}
