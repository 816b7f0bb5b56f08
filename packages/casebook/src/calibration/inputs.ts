import type { FitParameter } from '@rillmark/science/estimation/fit-problem.ts'
import { buildGraph } from '../building/graph.ts'
import { returnLegs } from '../building/graph-questions.ts'
import { componentName } from '../building/labels.ts'
import { type Component, isHeater, type WaterSystem } from '../building/water-system.ts'
import type { ConditionsOverrides } from '../conditions/overrides.ts'
import type { FieldReading } from './field-reading.ts'
import { FITTING } from './figures.ts'

/** An uncertain input of the simulation: what is believed of it, and what it changes. */
export interface UncertainInput extends FitParameter {
  words: string
  unit: string
  prior: { centre: number; sd: number }
  /** The parts it is about; empty where it is about the whole building. */
  parts: readonly string[]
  override: (value: number) => ConditionsOverrides
}

const HOTTEST_C = 99
const WIDEST_AIR_SHIFT_K = 15

/**
 * The uncertain inputs that readings like these can tell of, with what is believed before: the air, the losses, the flow of every loop, the
 * set point of every heater, the supply, and where residuals were read the decay. One without effect on any reading would only cost runs.
 */
export function uncertainInputs(system: WaterSystem, readings: readonly FieldReading[]): UncertainInput[] {
  return inputsOf(system, {
    hot: readings.some(({ circuit }) => circuit !== 'cold'),
    cold: readings.some(({ circuit }) => circuit === 'cold' || circuit === 'tempered'),
    residuals: readings.some(({ quantity }) => quantity === 'residual'),
  })
}

/** All that readings of any kind could tell of, to find one again by its id. */
export const everyInput = (system: WaterSystem): UncertainInput[] =>
  inputsOf(system, { hot: true, cold: true, residuals: true })

interface ToldOf {
  hot: boolean
  cold: boolean
  residuals: boolean
}

function inputsOf(system: WaterSystem, { hot, cold, residuals }: ToldOf): UncertainInput[] {
  const heaters = hot ? system.components.filter(isHeater) : []
  return [
    ambientShift(),
    ...(hot ? [hotLoss()] : []),
    ...(cold ? [coldLoss()] : []),
    ...(hot ? loopFlows(system) : []),
    ...heaters.flatMap(setpoint),
    supplyTemperature(system),
    ...(residuals ? decay(system) : []),
  ]
}

function ambientShift(): UncertainInput {
  return {
    id: 'ambientShiftK',
    words: 'Air around pipes and tanks, against what is described',
    unit: 'K',
    parts: [],
    scale: 'linear',
    start: 0,
    prior: { centre: 0, sd: FITTING.ambientShiftK },
    lower: -WIDEST_AIR_SHIFT_K,
    upper: WIDEST_AIR_SHIFT_K,
    override: (ambientShiftK) => ({ ambientShiftK }),
  }
}

/** Hot and cold pipes are wrapped by other hands at other times: the one says nothing of the other. */
const hotLoss = (): UncertainInput =>
  factor({
    id: 'hotLossFactor',
    words: 'Heat lost by hot pipes and heaters, times what is calculated',
    sd: FITTING.hotLossSd,
    override: (hotLossFactor) => ({ hotLossFactor }),
  })

const coldLoss = (): UncertainInput =>
  factor({
    id: 'coldLossFactor',
    words: 'Heat taken up by cold pipes and tanks, times what is calculated',
    sd: FITTING.coldLossSd,
    override: (coldLossFactor) => ({ coldLossFactor }),
  })

interface Factor {
  id: string
  words: string
  sd: number
  override: (value: number) => ConditionsOverrides
}

function factor({ id, words, sd, override }: Factor): UncertainInput {
  return { id, words, unit: 'times', parts: [], scale: 'log', start: 1, prior: { centre: 1, sd }, override }
}

/** One for each return whose flow is described; the rest, which a pump drives, together. */
function loopFlows(system: WaterSystem): UncertainInput[] {
  const legs = returnLegs(buildGraph(system))
  const pipes = new Map(system.pipes.map((pipe) => [pipe.id, pipe]))
  const own = legs.flatMap((leg): UncertainInput[] => {
    const pipe = leg.pipes.map((id) => pipes.get(id)).find((one) => (one?.recirculationLPerMin ?? 0) > 0)
    const flow = pipe?.recirculationLPerMin
    if (pipe === undefined || flow === undefined) return []
    return [
      {
        id: `loopFlow:${pipe.id}`,
        words: `Flow of the return${leg.riser === undefined ? ` from ${leg.from}` : ` of riser ${leg.riser}`}`,
        unit: 'L/min',
        parts: leg.pipes,
        scale: 'log',
        start: flow,
        prior: { centre: flow, sd: FITTING.loopFlowSd },
        override: (value) => ({ loopFlowLPerMin: { [pipe.id]: value } }),
      },
    ]
  })
  const driven = system.components.some(({ kind }) => kind === 'pump')
  if (own.length > 0 || legs.length === 0 || !driven) return own
  return [
    factor({
      id: 'loopFlowFactor',
      words: 'Flow of all returns, times what is described',
      sd: FITTING.loopFlowSd,
      override: (loopFlowFactor) => ({ loopFlowFactor }),
    }),
  ]
}

function setpoint(heater: Component): UncertainInput[] {
  const { id, setpointC } = heater
  if (setpointC === undefined) return []
  return [
    {
      id: `setpointC:${id}`,
      words: `Set point of ${componentName(heater)}`,
      unit: '°C',
      parts: [id],
      scale: 'linear',
      start: setpointC,
      prior: { centre: setpointC, sd: FITTING.setpointShiftK },
      lower: 0,
      upper: HOTTEST_C,
      override: (value) => ({ setpointC: { [id]: value } }),
    },
  ]
}

function supplyTemperature({ supply }: WaterSystem): UncertainInput {
  return {
    id: 'supplyTemperatureC',
    words: 'Temperature of the supply',
    unit: '°C',
    parts: [],
    scale: 'linear',
    start: supply.temperatureC,
    prior: { centre: supply.temperatureC, sd: FITTING.supplyTemperatureSdK },
    lower: 0,
    upper: HOTTEST_C,
    override: (supplyTemperatureC) => ({ supplyTemperatureC }),
  }
}

function decay({ supply }: WaterSystem): UncertainInput[] {
  const { kind, residualMgPerL } = supply.disinfectant
  if (kind === 'none' || residualMgPerL === undefined || residualMgPerL === 0) return []
  return [
    factor({
      id: 'bulkFactor',
      words: 'Decay in the water, times what is taken',
      sd: FITTING.bulkSd,
      override: (bulkFactor) => ({ bulkFactor }),
    }),
    factor({
      id: 'wallFactor',
      words: 'Decay at pipe walls, times what is taken',
      sd: FITTING.wallSd,
      override: (wallFactor) => ({ wallFactor }),
    }),
    {
      id: 'supplyResidualMgPerL',
      words: 'Residual of the supply',
      unit: 'mg/L',
      parts: [],
      scale: 'log',
      start: residualMgPerL,
      prior: { centre: residualMgPerL, sd: FITTING.supplyResidualSd },
      override: (supplyResidualMgPerL) => ({ supplyResidualMgPerL }),
    },
  ]
}
