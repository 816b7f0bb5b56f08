import { deviceName } from '@rillmark/casebook/building/devices.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import type { Layer, Mark } from '@rillmark/casebook/drawing/layers.ts'
import { provenanceLayer } from '@rillmark/casebook/drawing/provenance-layer.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'

export const knownLayer = (system: WaterSystem): Layer => ({ ...provenanceLayer(system), name: 'How it is known' })

/** The devices found, where they are on the drawing. */
export function sweepLayer({ building }: InvestigationState): Layer {
  const marks = [...building.sweep.values()].flatMap(({ body }): Mark[] =>
    body.component === undefined || body.state !== 'present'
      ? []
      : [
          {
            component: body.component,
            form: 'disc',
            tone: 'accent',
            label: `found in the sweep: ${deviceName(body.device)}`,
          },
        ],
  )
  return { name: 'What wets air', marks, legend: [{ form: 'disc', tone: 'accent', text: 'found in the sweep' }] }
}

/** Every place something happened at; the latest event speaks where there were several. */
export function historyLayer({ building }: InvestigationState): Layer {
  const marks = new Map<string, Mark>()
  for (const { body } of building.history.toSorted((a, b) => (a.body.on < b.body.on ? -1 : 1)))
    for (const component of body.components)
      marks.set(component, {
        component,
        form: 'triangle',
        tone: 'warn',
        label: `${body.what}, ${body.on}: ${body.text}`,
      })
  return {
    name: 'What changed lately',
    marks: [...marks.values()],
    legend: [{ form: 'triangle', tone: 'warn', text: 'something happened here' }],
  }
}
