// Heat of pipes against oracles/heat.py: Brent's method and implicit solvers of SciPy, other tables of water and air.
import type { LoopSegment } from '@rillmark/science/heat/loop-segments.ts'
import { loopTemperature } from '@rillmark/science/heat/loop-temperature.ts'
import { pipeHeatLoss } from '@rillmark/science/heat/pipe-heat-loss.ts'
import { standingCooling } from '@rillmark/science/heat/standing-cooling.ts'
import { expect, test } from 'vitest'
import oracle from './oracles/heat.json' with { type: 'json' }
import { type From, hold } from './rows.ts'

const HANDBOOK: From = 'computed: oracles/heat.py, air and water of other handbooks'
const ANEW: From = 'computed: oracles/heat.py, the same air written out anew, water of IF97'

/**
 * Two handbook descriptions of air differ at 300 to 350 K by 1.5 % in kinematic viscosity, 1 % in Prandtl number and 0.2 % in
 * conductivity; convection goes with about the fifth root of Pr/ν², so by up to 0.8 %.
 */
const OTHER_AIR = { share: 8e-3, why: 'air of another handbook changes convection by up to 0.8 %' }
/** Heat capacities of SR6-08 and IF97 differ by up to 5.2e-4. */
const OTHER_WATER = { share: 6e-4, why: 'heat capacities of the two formulations differ by up to 5.2e-4' }

interface Pipe {
  material: string
  bore: number
  od: number
  ins: number
  k: number
  e: number
  high?: number
}

const standingBuild = ({ material, od, ins, k, e, high }: Pipe) => ({
  material,
  outsideDiameterMm: od,
  insulationMm: ins,
  insulationConductivityWPerMK: k,
  surfaceEmissivity: e,
  uprightHeightM: high,
})
const build = (pipe: Pipe) => ({ ...standingBuild(pipe), wallMm: (pipe.od - pipe.bore) / 2 })
const label = ({ material, od, ins }: Pipe) => `${material} of ${od} mm, ${ins} mm of insulation`

/** A share of the way, in e-foldings of the difference from the air, as degrees at its end; and what the solvers leave. */
function degrees(
  { start, air, end }: { start: number; air: number; end: number },
  share: number,
  floorK = 1e-4,
): number {
  if (end === start) return 0
  const folds = Math.log((start - air) / (end - air))
  return share * folds * Math.abs(end - air) + floorK
}

hold<(typeof oracle.loss)[number]>(
  oracle.loss.map((each) => [
    `loss of ${label(each.pipe)}, ${each.water} in ${each.air} °C`,
    each,
    each.watts,
    { share: OTHER_AIR.share },
    OTHER_AIR.why,
    HANDBOOK,
  ]),
  ({ pipe, water, air }) => pipeHeatLoss({ ...build(pipe), waterC: water, ambientC: air }).wattsPerM,
)

type Loss = { pipe: Pipe; water: number; air: number }

hold<Loss>(
  oracle.odd_loss.map(({ name, watts, surface, ...each }) => [
    `loss and surface, ${name}`,
    each,
    [watts, surface],
    1e-8 * Math.max(1, Math.abs(watts)),
    'the same balance by another method: rounding',
    ANEW,
  ]),
  ({ pipe, water, air }) => {
    const got = pipeHeatLoss({ ...build(pipe), waterC: water, ambientC: air })
    return [got.wattsPerM, got.surfaceC]
  },
)

type Stand = { pipe: Pipe; start: number; air: number; minutes: number }
const stand = ({ pipe, start, air, minutes }: Stand) =>
  standingCooling({ ...standingBuild(pipe), boreMm: pipe.bore, startC: start, ambientC: air, minutes, thresholdsC: [] })
    .temperatureC

hold<Stand>(
  oracle.standing.map((each) => [
    `${label(each.pipe)}, ${each.minutes} min from ${each.start} in ${each.air} °C`,
    each,
    each.end,
    // Temperatures to which the difference has fallen almost wholly: hundredths of a degree.
    degrees(each, OTHER_AIR.share, 0.01),
    OTHER_AIR.why,
    HANDBOOK,
  ]),
  stand,
)

hold<Stand>(
  oracle.odd_standing.map(({ name, end, ...each }) => [
    `standing, ${name}`,
    each,
    end,
    degrees({ ...each, end }, OTHER_WATER.share),
    OTHER_WATER.why,
    ANEW,
  ]),
  stand,
)

type Segment = { pipe: Pipe; start: number; air: number; metres: number; flow: number }
const flowing = ({ pipe, start, air, metres, flow }: Segment) =>
  loopTemperature({ segments: [{ ...build(pipe), lengthM: metres }], flowLPerMin: flow, startC: start, ambientC: air })
    .returnC

hold<Segment>(
  oracle.segment.map((each) => [
    `${label(each.pipe)}, ${each.metres} m at ${each.flow} L/min from ${each.start} in ${each.air} °C`,
    each,
    each.end,
    degrees(each, OTHER_AIR.share, 0.01),
    OTHER_AIR.why,
    HANDBOOK,
  ]),
  flowing,
)

hold<Segment>(
  oracle.odd_segment.map(({ name, end, ...each }) => [
    `flowing, ${name}`,
    each,
    end,
    degrees({ ...each, end }, OTHER_WATER.share),
    OTHER_WATER.why,
    ANEW,
  ]),
  flowing,
)

const { main, near, far, back, ...ends } = oracle.two_branches
const branch = (name: string, pipe: Pipe, rest: Omit<LoopSegment, 'name'>): LoopSegment => ({
  name,
  ...build(pipe),
  ...rest,
})

const twoBranches = () =>
  loopTemperature({
    segments: [
      branch('main', main, { lengthM: 25 }),
      branch('near', near, { lengthM: 18, flowLPerMin: 3, ambientC: 26, after: ['main'] }),
      branch('far', far, { lengthM: 40, flowLPerMin: 1, ambientC: 12, after: ['main'] }),
      branch('back', back, { lengthM: 33, after: ['near', 'far'] }),
    ],
    flowLPerMin: 4,
    startC: 62,
    ambientC: 20,
  })
const OF_TEN = 'heat capacities of the two formulations differ by up to 5.2e-4, of a way of 10 K'

hold<string>(
  [['3 to 1 over unlike branches, met again', '', [ends.first, ends.one, ends.two, ends.end], 0.005, OF_TEN, ANEW]],
  () => twoBranches().segmentEndC,
)

test('trap: a good return hides a cold branch, so the coldest segment is named', () => {
  const { returnC, coldestC, coldestSegment } = twoBranches()
  expect(coldestSegment).toBe('far')
  expect(returnC - coldestC).toBeGreaterThan(4)
})
