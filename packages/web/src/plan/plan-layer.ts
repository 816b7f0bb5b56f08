import type { Layer, Mark } from '@rillmark/casebook/drawing/layers.ts'
import type { Plan, Stop } from '@rillmark/casebook/plan/plan-file.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'

/** A plan as a layer on the riser diagram: the stops by their number, what was left out as dashed rings. */
export function planLayer(plan: Plan): Layer {
  const kept = plan.stops.flatMap((stop, at) =>
    stop.component === undefined ? [] : [markOf(stop, { number: at + 1 })],
  )
  const left = plan.leftOut.map(({ stop }) => markOf(stop, { number: undefined }))
  return {
    name: 'Plan',
    marks: [...left, ...kept],
    pressing: ['accent', 'muted'],
    legend: [
      { form: 'disc', tone: 'accent', text: 'in the plan, with its number in walking order' },
      { form: 'dashed-ring', tone: 'muted', text: 'left out' },
    ],
  }
}

function markOf(stop: Stop, { number }: { number: number | undefined }): Mark {
  const pipe = stop.reasons.find(({ obligation }) => obligation === 'return')?.evidence[0]
  const place = pipe === undefined ? { component: stop.component ?? '' } : { pipe }
  if (number === undefined) return { ...place, form: 'dashed-ring', tone: 'muted', label: `left out: ${stop.title}` }
  const samples = stop.samples.filter(({ sampleKind }) => sampleKind !== 'readings-only').length
  const label = `stop ${number}: ${stop.title}, ${counted(samples, 'sample')}`
  return { ...place, form: 'disc', tone: 'accent', text: String(number), label }
}
