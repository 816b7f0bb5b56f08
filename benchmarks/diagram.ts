// How long the riser diagram of 2,000 outlets takes, beside what cannot be avoided: writing its shapes down once as JSON.
import { buildSystem } from '@rillmark/casebook/building/build-system.ts'
import { grid } from '@rillmark/casebook/building/marram-house.fixture.ts'
import { drawSystem } from '@rillmark/casebook/drawing/draw-scene.ts'
import { sceneToSvg } from '@rillmark/casebook/drawing/svg.ts'

const BUDGET_MS = 500
const ROUNDS = 15

const system = buildSystem(grid({ floors: 20, risers: 10, each: 10 }))

/** Milliseconds of the first run, as a reader waits for it, and the median of the following ones. */
function timed(act: () => unknown): { firstMs: number; medianMs: number } {
  const once = (): number => {
    const start = performance.now()
    act()
    return performance.now() - start
  }
  const firstMs = once()
  const later = Array.from({ length: ROUNDS }, once).sort((a, b) => a - b)
  return { firstMs, medianMs: later[Math.floor(ROUNDS / 2)] ?? firstMs }
}

let worst = 0
for (const detail of ['auto', 'all'] as const) {
  const drawn = timed(() => sceneToSvg(drawSystem(system, { detail })))
  const scene = drawSystem(system, { detail })
  const written = timed(() => JSON.stringify(scene))
  const svg = sceneToSvg(scene)
  worst = Math.max(worst, drawn.firstMs)
  console.log(
    `2,000 outlets, ${system.pipes.length} pipes, detail ${detail}: first ${drawn.firstMs.toFixed(0)} ms, then ${drawn.medianMs.toFixed(0)} ms` +
      ` (budget ${BUDGET_MS} ms); ${scene.shapes.length} shapes, SVG ${(svg.length / 1024).toFixed(0)} kB;` +
      ` ${(drawn.medianMs / written.medianMs).toFixed(1)} × the time JSON.stringify takes for the same shapes`,
  )
}
if (worst > BUDGET_MS) process.exitCode = 1
