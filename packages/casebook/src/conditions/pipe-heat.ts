import table from '@rillmark/reference/conditions/filled-in.json' with { type: 'json' }
import film from '@rillmark/reference/heat/film.json' with { type: 'json' }
import { type PipeBuild, solidHeatJPerMK } from '@rillmark/science/heat/pipe-build.ts'
import { pipeHeatLoss } from '@rillmark/science/heat/pipe-heat-loss.ts'
import type { NetworkPipe } from '@rillmark/science/network/network.ts'

const { hotDifferenceK, coldDifferenceK, mostPower } = table.reference
const SURFACE_EMISSIVITY = film.figures.emissivity.value
const BOILS_C = 100

export interface WrappedPipe {
  boreMm: number
  outsideDiameterMm: number
  material: string
  insulationMm: number
  insulationConductivityWPerMK: number
  ambientC: number
  /** Cold water is warmed from a smaller difference than hot water is cooled from. */
  carries: 'cold' | 'hot'
}

export type PipeHeat = Pick<NetworkPipe, 'lossWPerMK' | 'lossAtK' | 'lossPower' | 'wallHeatJPerMK'>

/**
 * What a pipe loses and holds, from its build. The coefficient is worked out at the difference usual for what it carries; the power is
 * fitted through a large and a small difference. Buildings have few builds, so each is worked out once.
 */
export function pipeHeats(): (pipe: WrappedPipe) => PipeHeat {
  const known = new Map<string, PipeHeat>()
  return (pipe) => {
    const key = Object.values(pipe).join(' ')
    const heat = known.get(key) ?? pipeHeat(pipe)
    known.set(key, heat)
    return heat
  }
}

function pipeHeat(pipe: WrappedPipe): PipeHeat {
  const build = buildOf(pipe)
  const lossAt = (differenceK: number): number => {
    const waterC = Math.min(pipe.ambientC + differenceK, BOILS_C)
    return pipeHeatLoss({ ...build, waterC, ambientC: pipe.ambientC }).overallWPerMK
  }
  const [hot, cold] = [lossAt(hotDifferenceK), lossAt(coldDifferenceK)]
  const power = Math.log(hot / cold) / Math.log(hotDifferenceK / coldDifferenceK)
  return {
    lossWPerMK: pipe.carries === 'hot' ? hot : cold,
    lossAtK: pipe.carries === 'hot' ? hotDifferenceK : coldDifferenceK,
    lossPower: Math.min(Math.max(power, 0), mostPower),
    wallHeatJPerMK: solidHeatJPerMK(build),
  }
}

const buildOf = ({ boreMm, outsideDiameterMm, ...pipe }: WrappedPipe): PipeBuild => ({
  outsideDiameterMm,
  wallMm: (outsideDiameterMm - boreMm) / 2,
  material: pipe.material,
  insulationMm: pipe.insulationMm,
  insulationConductivityWPerMK: pipe.insulationConductivityWPerMK,
  surfaceEmissivity: SURFACE_EMISSIVITY,
})
