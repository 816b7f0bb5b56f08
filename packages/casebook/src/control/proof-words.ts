import type { Measure } from './state.ts'
import type { Proof } from './measure-progress.ts'

/** What a proof says of its place: a target is reached or not; where none was set, the work is done or not, and nothing was reached. */
export function proofWord(
  { ordered }: Pick<Measure, 'ordered'>,
  { body }: Proof,
): 'reached' | 'not reached' | 'done' | 'not done' {
  if (ordered.body.target === undefined) return body.reached ? 'done' : 'not done'
  return body.reached ? 'reached' : 'not reached'
}

/** The places with a sound proof, in words: `2 of 5 reached the target`, or `2 of 5 done` where no target was set. */
export function placesWords(
  { ordered }: Pick<Measure, 'ordered'>,
  { reached, places }: { readonly reached: number; readonly places: readonly unknown[] },
): string {
  return `${reached} of ${places.length} ${ordered.body.target === undefined ? 'done' : 'reached the target'}`
}
