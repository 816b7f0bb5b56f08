import { componentName } from '../building/labels.ts'
import { weakestKnown } from '../building/weakest-known.ts'
import type { KnownBy, WaterSystem } from '../building/water-system.ts'
import type { Layer, MarkForm, Tone } from './layers.ts'

const LOOKS: Record<KnownBy | 'not said', { form: MarkForm; tone: Tone; text: string }> = {
  seen: { form: 'disc', tone: 'accent', text: 'all seen' },
  told: { form: 'ring', tone: 'plain', text: 'told' },
  drawn: { form: 'diamond', tone: 'plain', text: 'from a drawing' },
  guessed: { form: 'dashed-ring', tone: 'muted', text: 'something guessed' },
  'not said': { form: 'cross', tone: 'muted', text: 'not said how known' },
}

/** The layer "as described": each component by how the least certain of its facts is known. */
export function provenanceLayer(system: WaterSystem): Layer {
  const known = system.components
    .filter((component) => component.kind !== 'junction')
    .map((component) => ({ component, look: LOOKS[weakestKnown(component) ?? 'not said'] }))
  const used = new Set(known.map(({ look }) => look))
  return {
    name: 'As described',
    marks: known.map(({ component, look }) => ({
      component: component.id,
      form: look.form,
      tone: look.tone,
      size: 'small',
      label: `${componentName(component)}: ${look.text}`,
    })),
    legend: Object.values(LOOKS).filter((look) => used.has(look)),
    pressing: ['muted', 'plain', 'accent'],
  }
}
