import type { Chemistry } from '@rillmark/science/network/network.ts'
import { type UsualDecay, usualDecay } from '@rillmark/science/network/usual-decay.ts'
import type { DisinfectantKind } from '../building/water-system.ts'
import { sourceWords } from './filled-in.ts'
import type { NetworkDraft } from './network-draft.ts'

const NAMES: Record<DisinfectantKind, Chemistry['disinfectant']> = {
  'free-chlorine': 'free-chlorine',
  chloramine: 'chloramine',
  'chlorine-dioxide': 'other',
  none: 'none',
  unknown: 'other',
}

/** How the residual decays: as described, else as is usual for the disinfectant. */
export function compileChemistry(draft: NetworkDraft): Chemistry {
  const { supply, decay } = draft.system
  const { bulkFactor = 1, wallFactor = 1 } = draft.overrides
  const disinfectant = NAMES[supply.disinfectant.kind]
  const usual = usualFor(draft, disinfectant)
  const { bulkPerHour, wallMPerHour, ...rest } = decay ?? filledDecay(draft, usual)
  return {
    disinfectant,
    ...rest,
    bulkPerHour: bulkPerHour * bulkFactor,
    wallMPerHour: wallMPerHour * wallFactor,
    pH: supply.pH,
    standingSherwood: fromUsual(draft, { id: 'standingSherwood', usual }),
  }
}

/** The usual decay of the disinfectant; of another than chlorine and chloramine nothing is known, and chlorine stands in. */
function usualFor(draft: NetworkDraft, disinfectant: Chemistry['disinfectant']): UsualDecay {
  const known = usualDecay(disinfectant)
  const chlorine = usualDecay('free-chlorine')
  if (chlorine === undefined) throw new RangeError('Cannot tell the decay because that of free chlorine is missing')
  if (disinfectant === 'other' && draft.system.decay === undefined)
    draft.cautions.add('Decay of this disinfectant is not known; that of free chlorine stands in.')
  for (const caveat of known?.caveats ?? []) draft.cautions.add(`${caveat}.`)
  return known ?? chlorine
}

type Decay = Pick<Chemistry, 'bulkPerHour' | 'wallMPerHour' | 'referenceC' | 'activationKJPerMol'>

function filledDecay(draft: NetworkDraft, usual: UsualDecay): Decay {
  if (draft.system.supply.disinfectant.kind === 'none')
    return { bulkPerHour: 0, wallMPerHour: 0, referenceC: usual.referenceC }
  return {
    bulkPerHour: fromUsual(draft, { id: 'bulkPerHour', usual }),
    wallMPerHour: fromUsual(draft, { id: 'wallMPerHour', usual }),
    activationKJPerMol: fromUsual(draft, { id: 'activationKJPerMol', usual }),
    referenceC: usual.referenceC,
  }
}

const WORDS = {
  bulkPerHour: 'Decay of the residual in the water',
  wallMPerHour: 'Decay of the residual at pipe walls',
  activationKJPerMol: 'Activation energy of decay in the water',
  standingSherwood: 'Sherwood number of standing water',
} as const

function fromUsual(draft: NetworkDraft, { id, usual }: { id: keyof typeof WORDS; usual: UsualDecay }): number {
  const { value: ordinary, unit, lower, upper, note, known } = usual[id]
  const value = draft.overrides.assumed?.[id] ?? ordinary
  if (draft.system.supply.disinfectant.kind === 'none') return value
  const text = `${WORDS[id]}: ${value}${unit === '1' ? '' : ` ${unit}`}`
  const source = sourceWords({ source: note, known })
  draft.log.note({ id, text, value, unit, range: { lower, upper }, source })
  return value
}
