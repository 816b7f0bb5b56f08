import { isOutlet } from '../building/water-system.ts'
import { sharedParts } from '../cases/shared-parts.ts'
import { roundProgress } from '../fieldwork/round-progress.ts'
import { headline } from '../findings/headline.ts'
import { sampleRows } from '../findings/sample-rows.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { counted } from '../units/counted.ts'
import type { BriefLine } from './brief-view.ts'

/** What the record can already say, step by step; a step without entries says nothing. */
export function known(state: InvestigationState): BriefLine[] {
  return [
    ...casesKnown(state),
    ...buildingKnown(state),
    ...workKnown(state),
    ...findingsKnown(state),
    ...controlKnown(state),
  ]
}

function casesKnown(state: InvestigationState): BriefLine[] {
  const { cases } = state
  const counts = new Map<string, number>()
  for (const { body } of cases.cases.values())
    counts.set(body.classification, (counts.get(body.classification) ?? 0) + 1)
  if (counts.size === 0) return []
  const total = cases.cases.size - (counts.get('not a case') ?? 0)
  const parts = [...counts].map(([classification, count]) => `${count} ${classification}`).join(', ')
  const onsets = [...cases.cases.values()].flatMap(({ body }) => body.onsetDate ?? []).sort()
  const [first, last] = [onsets[0], onsets.at(-1)]
  const between = first === undefined ? '' : first === last ? `, onset ${first}` : `, onsets ${first} to ${last}`
  const top = sharedParts(state)[0]
  const shared: BriefLine[] =
    top !== undefined && top.inWindow > 1
      ? [{ words: `${top.place} lies in the incubation window of ${top.inWindow} of ${total} cases`, step: 'cases' }]
      : []
  return [{ words: `${counted(total, 'case')} (${parts})${between}`, step: 'cases' }, ...shared]
}

function buildingKnown({ building }: InvestigationState): BriefLine[] {
  const { system } = building
  if (system === undefined) return []
  const outlets = system.components.filter(isOutlet).length
  const { kind, residualMgPerL } = system.supply.disinfectant
  const residual = residualMgPerL === undefined ? '' : `, ${residualMgPerL} mg/L`
  return [
    {
      words: `${counted(outlets, { one: 'outlet or device', many: 'outlets and devices' })}; supply: ${kind.replace('-', ' ')}${residual}`,
      step: 'building',
    },
  ]
}

function workKnown(state: InvestigationState): BriefLine[] {
  return [...state.plan.rounds.values()].map(({ body }): BriefLine => {
    const { stops, sampled, notPossible } = roundProgress(state, { round: body.round })
    const samples = [...state.fieldwork.samples.values()].filter(({ body: { round } }) => round === body.round).length
    const given = notPossible === 0 ? '' : `, ${notPossible} not possible`
    return {
      words: `Round ${body.round} (${body.purpose}): ${sampled} of ${counted(stops.length, 'stop')} done${given}, ${counted(samples, 'sample')} taken`,
      step: 'fieldwork',
      show: body.round,
    }
  })
}

function findingsKnown(state: InvestigationState): BriefLine[] {
  if (state.results.results.length === 0) return []
  const { title } = headline(sampleRows(state))
  const conclusions = state.findings.conclusions.map(
    ({ id, body }): BriefLine => ({
      words: `Concluded (${body.strength}): ${body.statement}`,
      step: 'findings',
      show: id,
    }),
  )
  return [{ words: title, step: 'findings' }, ...conclusions]
}

function controlKnown({ control }: InvestigationState): BriefLine[] {
  if (control.measures.size === 0) return []
  const done = [...control.measures.values()].filter(
    ({ completed }) => completed?.body.outcome === 'carried out',
  ).length
  return [{ words: `${done} of ${counted(control.measures.size, 'measure')} carried out`, step: 'control' }]
}
