import { waterHeld } from '@rillmark/casebook/building/system-volume.ts'
import { isHeater, type WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { given } from '@rillmark/casebook/entry/given.ts'
import type { Offer } from '../calculators/offer.ts'

/** What one asks before ordering or while proving a measure, with what the building is described with filled in. */
export function controlOffers(system: WaterSystem | undefined): readonly Offer[] {
  const { pH, temperatureC } = system?.supply ?? {}
  const waterVolumeL = heldBy(system)
  const hotC = system?.components.find(isHeater)?.setpointC
  const ambientC = system?.ambientC
  return [
    { id: 'shock-dose', question: 'How much product does a shock disinfection take?', start: given({ waterVolumeL }) },
    {
      id: 'dechlorination',
      question: 'What takes the chlorine out before discharge?',
      start: given({ waterVolumeL }),
    },
    {
      id: 'disinfectant-contact',
      question: 'What can this residual do in this time?',
      start: given({ pH, temperatureC }),
    },
    { id: 'heat-inactivation', question: 'What can this temperature do in this time?' },
    { id: 'scald-time', question: 'How soon does water this hot scald?' },
    { id: 'pipe-volume', question: 'How much water does a pipe hold?' },
    { id: 'clearing-time', question: 'How long must it run until the pipes are full of treated water?', start: {} },
    {
      id: 'loop-temperature',
      question: 'How warm does the loop come back?',
      start: given({ startC: hotC, ambientC }),
    },
    {
      id: 'residual-decay',
      question: 'What is left of the residual after standing?',
      start: given({ ...decayOf(system), temperatureC }),
    },
    {
      id: 'standing-cooling',
      question: 'How soon does standing water cool into the range of growth?',
      start: given({ startC: hotC, ambientC }),
    },
  ]
}

/** Litres in the whole described system; undefined where any part of it is not known. */
function heldBy(system: WaterSystem | undefined): number | undefined {
  if (system === undefined || system.pipes.length === 0) return undefined
  const { volumeL, notCounted } = waterHeld(system)
  return notCounted === 0 && volumeL > 0 ? Math.ceil(volumeL) : undefined
}

function decayOf(system: WaterSystem | undefined): object {
  const { decay } = system ?? {}
  return decay === undefined ? {} : given({ ...decay, startMgPerL: system?.supply.disinfectant.residualMgPerL })
}
