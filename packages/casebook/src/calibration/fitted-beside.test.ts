import { expect, test } from 'vitest'
import { fittedBeside } from './fitted-beside.ts'
import { threeTaps } from './small-buildings.fixture.ts'

const RETURN_C = 'hot-return-hot-c-f1-to-return-main-c'
/** The same return further on. */
const ALSO_C = 'hot-return-return-main-c-to-return-main-b'
const fitted = {
  ambientShiftK: 1,
  setpointC: { 'heater-1': 57 },
  loopFlowLPerMin: { [RETURN_C]: 2, other: 3 },
  closedPipes: [RETURN_C],
  crossFlowLPerMin: { 'basin-tap-b102': 0.5 },
}

test('[CLB19] what is set by hand counts before what was fitted, the rest stays as fitted', () => {
  expect(fittedBeside(fitted, { system: threeTaps, changes: [] })).toEqual(fitted)
  expect(
    fittedBeside(fitted, {
      system: threeTaps,
      changes: [
        { change: 'set-point', component: 'heater-1', setpointC: 62 },
        { change: 'loop-flow', pipe: RETURN_C, flowLPerMin: 4 },
      ],
    }),
  ).toEqual({ ...fitted, setpointC: {}, loopFlowLPerMin: { other: 3, [RETURN_C]: 4, [ALSO_C]: 4 }, closedPipes: [] })
})

test('[CLB19] a flow set by hand is not stretched by the factor of all returns; what stood at a part goes with it', () => {
  const changes = [{ change: 'loop-flow', pipe: RETURN_C, flowLPerMin: 4 } as const]
  const stretched = fittedBeside({ loopFlowFactor: 2 }, { system: threeTaps, changes })
  expect((stretched.loopFlowLPerMin?.[RETURN_C] ?? 0) * (stretched.loopFlowFactor ?? 1)).toBe(4)
  const less = { ...threeTaps, components: threeTaps.components.filter(({ id }) => id !== 'basin-tap-b102') }
  expect(fittedBeside(fitted, { system: less, changes: [] }).crossFlowLPerMin).toEqual({})
})
