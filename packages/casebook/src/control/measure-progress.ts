import type { BodyOf } from '../entry/kinds.ts'
import type { EffectiveEntry } from '../state/effective.ts'
import type { Measure } from './state.ts'

export type MeasureKind = BodyOf<'measure.ordered'>['measure']
export type Proof = EffectiveEntry<'measure.achieved'>

/** Measures whose effect is shown outlet by outlet. */
const PROVED_BY_OUTLET: ReadonlySet<MeasureKind> = new Set(['heat disinfection', 'shock chlorination', 'flush'])

export interface PlaceProof {
  readonly component: string
  /** the proof that counts: the latest that reached the target, else the latest */
  readonly proof: Proof | undefined
  readonly reached: boolean
}

export interface Progress {
  readonly places: readonly PlaceProof[]
  readonly reached: number
  readonly missing: readonly string[]
  /** whether every listed place must be proved before the measure may be called carried out */
  readonly mustBeProved: boolean
}

/** How far a measure is proved at the places it lists. */
export function progressOf(measure: Measure): Progress {
  const { components, measure: kind } = measure.ordered.body
  const places = components.map((component): PlaceProof => {
    const proofs = measure.proofs.filter(({ body }) => body.component === component)
    const proof = proofs.findLast(({ body }) => body.reached) ?? proofs.at(-1)
    return { component, proof, reached: proof?.body.reached ?? false }
  })
  return {
    places,
    reached: places.filter(({ reached }) => reached).length,
    missing: places.filter(({ reached }) => !reached).map(({ component }) => component),
    mustBeProved: PROVED_BY_OUTLET.has(kind) && components.length > 0,
  }
}
