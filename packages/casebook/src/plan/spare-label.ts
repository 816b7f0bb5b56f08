import { sha256Of } from '../chain/link.ts'
import { makeLabel } from '../label/label.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { labelLetters, labelsTaken, numbersOf, SPARE } from './label-plan.ts'

const HEX = 16
const DIGITS = 8

/**
 * The next label nobody has, for a sample that was not planned. Devices that can't hear of each other must not give the same one to two
 * bottles, so that each counts on from a number of its own in the upper half: two devices with ten such samples each meet in one case of some
 * two hundred and fifty, and what a person writes on a bottle is then told to be taken as soon as they hear of each other.
 * @throws RangeError when all of the upper half is taken
 */
export function spareLabel(state: InvestigationState, { device }: { readonly device: string }): string {
  const taken = labelsTaken(state)
  const prefix = labelLetters({ title: state.brief.opened?.body.title ?? '', taken })
  const numbers = numbersOf(taken, prefix)
  const count = SPARE.last - SPARE.first + 1
  const begin = Number.parseInt(sha256Of(device).slice(0, DIGITS), HEX) % count
  for (let step = 0; step < count; step += 1) {
    const number = SPARE.first + ((begin + step) % count)
    if (!numbers.has(number)) return makeLabel({ prefix, number }).id
  }
  throw new RangeError(`Cannot give a spare label because all from ${SPARE.first} to ${SPARE.last} are taken`)
}
