import type { Layer, Mark } from '../drawing/layers.ts'
import { visitKey } from '../fieldwork/state.ts'
import type { InvestigationState } from '../state/investigation-state.ts'

/** The plan on the riser diagram as it was lived: which planned places were sampled, which not. */
export function visitLayer(state: InvestigationState): Layer {
  const marks = new Map<string, Mark>()
  for (const { body } of state.plan.rounds.values()) {
    for (const { id, component, title, samples } of body.plan.stops) {
      if (component === undefined) continue
      const visit = state.fieldwork.visits.get(visitKey({ round: body.round, stop: id }))
      const taken = visit?.samples.length ?? 0
      const failed = visit?.finished?.body.outcome === 'not possible'
      const words = failed
        ? 'not possible'
        : taken > 0
          ? `${taken} of ${samples.filter(({ sampleKind }) => sampleKind !== 'readings-only').length} samples taken`
          : 'planned'
      const look = failed
        ? ({ form: 'cross', tone: 'warn' } as const)
        : taken > 0
          ? ({ form: 'disc', tone: 'accent' } as const)
          : ({ form: 'dashed-ring', tone: 'muted' } as const)
      marks.set(component, { component, ...look, label: `${title}: ${words} (${body.round})` })
    }
  }
  return {
    name: 'Plan',
    marks: [...marks.values()],
    legend: [
      { form: 'disc', tone: 'accent', text: 'sampled' },
      { form: 'dashed-ring', tone: 'muted', text: 'planned' },
      { form: 'cross', tone: 'warn', text: 'not possible' },
    ],
    pressing: ['warn', 'muted', 'accent'],
  }
}
