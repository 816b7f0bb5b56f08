// How long the riser diagram of 2,000 outlets takes, beside what cannot be avoided: writing its shapes down once as JSON.
import { buildSystem } from '@rillmark/casebook/building/build-system.ts'
import { grid } from '@rillmark/casebook/building/marram-house.fixture.ts'
import { drawSystem } from '@rillmark/casebook/drawing/draw-scene.ts'
import { sceneToSvg } from '@rillmark/casebook/drawing/svg.ts'
import { type Measurement, medianMs } from './measure.ts'

export async function measure(): Promise<Measurement[]> {
  const system = buildSystem(grid({ floors: 20, risers: 10, each: 10 }))
  const rows: Measurement[] = []
  for (const detail of ['auto', 'all'] as const) {
    const draw = (): string => sceneToSvg(drawSystem(system, { detail }))
    const began = performance.now()
    draw()
    const firstMs = performance.now() - began
    const scene = drawSystem(system, { detail })
    const writeMs = await medianMs(() => JSON.stringify(scene))
    const times = (await medianMs(draw)) / writeMs
    const words = detail === 'all' ? 'every outlet drawn' : 'gathered'
    rows.push({
      what: `lay out and draw 2,000 outlets, ${words}, first time`,
      value: firstMs,
      unit: 'ms',
      budget: 500,
      ratio: { to: 'JSON.stringify of its shapes, once warm', times },
    })
  }
  return rows
}
