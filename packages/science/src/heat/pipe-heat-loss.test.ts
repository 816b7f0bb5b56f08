import * as fc from 'fast-check'
import { expect, test } from 'vitest'
import { runCalculation } from '../catalogue/catalogue.ts'
import { type PipeHeatLossInput, pipeHeatLoss } from './pipe-heat-loss.ts'
import { surfaceFilm } from './surface-film.ts'

const real = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const pipes: fc.Arbitrary<PipeHeatLossInput> = fc.record({
  outsideDiameterMm: real(8, 300),
  wallMm: real(0, 3.9),
  material: fc.constantFrom('copper', 'steel', 'pex', 'pp-r'),
  insulationMm: fc.oneof(fc.constant(0), real(1, 100)),
  insulationConductivityWPerMK: real(0.02, 0.1),
  surfaceEmissivity: real(0, 1),
  waterC: real(0, 100),
  ambientC: real(-40, 80),
})
const bare: PipeHeatLossInput = {
  outsideDiameterMm: 22,
  wallMm: 0,
  material: 'copper',
  insulationMm: 0,
  surfaceEmissivity: 0.9,
  waterC: 60,
  ambientC: 22,
}

test('what the surface gives off is what comes through the layers, and the surface lies between water and air', () => {
  fc.assert(
    fc.property(pipes, (input) => {
      const got = pipeHeatLoss(input)
      const diameterM = (input.outsideDiameterMm + 2 * input.insulationMm) / 1000
      const film = got.convectionWPerM2K + got.radiationWPerM2K
      const given = Math.PI * diameterM * film * (got.surfaceC - input.ambientC)
      expect(given).toBeCloseTo(got.wattsPerM, 7)
      const [low, high] = [Math.min(input.waterC, input.ambientC), Math.max(input.waterC, input.ambientC)]
      expect(got.surfaceC).toBeGreaterThanOrEqual(low - 1e-9)
      expect(got.surfaceC).toBeLessThanOrEqual(high + 1e-9)
    }),
  )
})

test('hotter water, cooler air and a duller surface lose more; a wall of plastic loses less', () => {
  fc.assert(
    fc.property(pipes, real(0.1, 10), (input, more) => {
      const { wattsPerM } = pipeHeatLoss(input)
      expect(pipeHeatLoss({ ...input, waterC: input.waterC + more }).wattsPerM).toBeGreaterThan(wattsPerM)
      expect(pipeHeatLoss({ ...input, ambientC: input.ambientC - more }).wattsPerM).toBeGreaterThan(wattsPerM)
      const size = Math.abs(wattsPerM)
      const { surfaceEmissivity } = input
      const duller = pipeHeatLoss({ ...input, surfaceEmissivity: surfaceEmissivity + 0.1 })
      expect(Math.abs(duller.wattsPerM)).toBeGreaterThanOrEqual(size * (1 - 1e-9))
      const plastic = pipeHeatLoss({ ...input, material: 'pp-r', wallMm: input.wallMm + 0.05 })
      expect(Math.abs(plastic.wattsPerM)).toBeLessThan(
        Math.abs(pipeHeatLoss({ ...input, material: 'pp-r' }).wattsPerM) + 1e-12,
      )
    }),
  )
})

test('on a dull pipe of 15 mm or more, 10 K from the air, good insulation saves, and more of it saves more', () => {
  fc.assert(
    fc.property(pipes, real(1, 50), (input, more) => {
      // Below that the still film is so poor that a thin wrap, a larger surface, loses more: the critical radius k / h.
      const outsideDiameterMm = input.outsideDiameterMm + 7
      const film = { insulationConductivityWPerMK: 0.035, surfaceEmissivity: 0.9, insulationMm: 0 }
      const dull = { ...input, ...film, outsideDiameterMm, ambientC: 20, waterC: 30 + 0.7 * input.waterC }
      const thin = { ...dull, insulationMm: more }
      expect(pipeHeatLoss(thin).overallWPerMK).toBeLessThan(pipeHeatLoss(dull).overallWPerMK)
      expect(pipeHeatLoss({ ...dull, insulationMm: more * 1.1 }).overallWPerMK).toBeLessThan(
        pipeHeatLoss(thin).overallWPerMK,
      )
    }),
  )
})

test('equally warm water and air exchange nothing, and the coefficient is the limit from both sides', () => {
  const at = (waterC: number) => pipeHeatLoss({ ...bare, insulationMm: 10, insulationConductivityWPerMK: 0.04, waterC })
  expect(at(22)).toMatchObject({ wattsPerM: 0, surfaceC: 22, regime: 'still' })
  expect(at(22 + 1e-9).overallWPerMK / at(22).overallWPerMK).toBeCloseTo(1, 2)
  expect(at(22 - 1e-9).wattsPerM).toBeLessThan(0)
})

test('insulation as conductive as the wall is thick is a thicker wall', () => {
  const wrapped = pipeHeatLoss({ ...bare, insulationMm: 3, insulationConductivityWPerMK: 0.35 })
  const solid = pipeHeatLoss({ ...bare, outsideDiameterMm: 28, wallMm: 3, material: 'pex' })
  expect(wrapped.overallWPerMK).toBeCloseTo(solid.overallWPerMK, 10)
})

test('the air along a small pipe is laminar, along a wide hot one turbulent', () => {
  expect(pipeHeatLoss(bare).regime).toBe('laminar')
  expect(pipeHeatLoss({ ...bare, outsideDiameterMm: 1000 }).regime).toBe('turbulent')
})

test('insulation without its conductivity, and a wall thicker than the pipe, are refused at the field', () => {
  const refused = (odd: object) => runCalculation({ id: 'pipe-heat-loss', input: { ...bare, ...odd } })
  expect(refused({ insulationMm: 20 })).toMatchObject({ issues: [{ path: 'insulationConductivityWPerMK' }] })
  expect(refused({ insulationMm: 20, insulationConductivityWPerMK: 0 })).toMatchObject({
    issues: [{ path: 'insulationConductivityWPerMK' }],
  })
  expect(refused({ insulationConductivityWPerMK: 0 })).not.toHaveProperty('issues')
  expect(refused({ outsideDiameterMm: 0 })).toMatchObject({ issues: [{ path: 'outsideDiameterMm' }] })
  expect(refused({ wallMm: 11 })).toMatchObject({ issues: [{ path: 'wallMm', received: '11' }] })
  expect(refused({ waterC: 101, ambientC: 81 })).toMatchObject({ issues: [{ path: 'waterC' }, { path: 'ambientC' }] })
  expect(() => pipeHeatLoss({ ...bare, insulationMm: 1 })).toThrow(RangeError)
  expect(() => pipeHeatLoss({ ...bare, material: 'glass' })).toThrow(RangeError)
})

test('an upright pipe loses at most what a level one does, tends to it as the air comes to rest, and balances as well', () => {
  fc.assert(
    fc.property(pipes, real(0.1, 100), (input, uprightHeightM) => {
      const [upright, level] = [pipeHeatLoss({ ...input, uprightHeightM }), pipeHeatLoss(input)]
      expect(Math.abs(upright.wattsPerM)).toBeLessThanOrEqual(Math.abs(level.wattsPerM) * (1 + 1e-9))
      const diameterM = (input.outsideDiameterMm + 2 * input.insulationMm) / 1000
      const given = Math.PI * diameterM * (upright.convectionWPerM2K + upright.radiationWPerM2K)
      expect(given * (upright.surfaceC - input.ambientC)).toBeCloseTo(upright.wattsPerM, 7)
    }),
  )
  const near = { ...bare, waterC: 22 + 1e-9 }
  expect(pipeHeatLoss({ ...near, uprightHeightM: 3 }).overallWPerMK).toBe(pipeHeatLoss(near).overallWPerMK)
})

test('a bare riser of 22 mm and a storey loses 5 to 10 % less than the same pipe laid level, an insulated one under 2 %', () => {
  const coat = { insulationMm: 20, insulationConductivityWPerMK: 0.035 }
  const share = (pipe: PipeHeatLossInput) =>
    pipeHeatLoss({ ...pipe, uprightHeightM: 3 }).wattsPerM / pipeHeatLoss(pipe).wattsPerM
  expect(share(bare)).toBeGreaterThan(0.9)
  expect(share(bare)).toBeLessThan(0.95)
  expect(share({ ...bare, ...coat })).toBeGreaterThan(0.98)
  expect(share({ ...bare, ...coat })).toBeLessThan(1)
})

test('the balance found by halving the interval is the same', () => {
  fc.assert(
    fc.property(pipes, fc.option(real(0.5, 30), { nil: undefined }), (input, uprightHeightM) => {
      const got = pipeHeatLoss({ ...input, uprightHeightM })
      const diameterM = (input.outsideDiameterMm + 2 * input.insulationMm) / 1000
      const { ambientC, surfaceEmissivity: emissivity } = input
      const within = 1 / got.overallWPerMK - 1 / (Math.PI * diameterM * (got.convectionWPerM2K + got.radiationWPerM2K))
      let [cold, hot] = [ambientC, input.waterC]
      for (let step = 0; step < 100; step++) {
        const surfaceC = (cold + hot) / 2
        const film = surfaceFilm({ diameterM, surfaceC, ambientC, emissivity, uprightHeightM })
        const out = Math.PI * diameterM * (film.convectionWPerM2K + film.radiationWPerM2K)
        const more = out * within * (surfaceC - ambientC) - (input.waterC - surfaceC)
        if (more * Math.sign(input.waterC - ambientC) > 0) hot = surfaceC
        else cold = surfaceC
      }
      expect(got.surfaceC).toBeCloseTo((cold + hot) / 2, 8)
    }),
  )
})
