import { isLabelPrefix, LABEL_LETTERS, makeLabel, readLabel } from '../label/label.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import type { Plan, Stop } from './plan-file.ts'
import { isLabelled } from './samples-at.ts'

/**
 * The plan with a label on every sample that goes to the laboratory, counted up in walking order from the highest number taken. The
 * same plan and the same labels taken give the same labels.
 *
 * @param of.taken every label of the investigation so far, planned or collected
 * @param of.letters the investigation's three letters
 * @throws RangeError when the letters can't be printed or the numbers run out at 9999
 */
export function labelPlan(of: { plan: Plan; taken: Iterable<string>; letters: string }): Plan {
  let number = highestOf(of.taken, of.letters)
  const label = (): string => {
    number += 1
    return makeLabel({ prefix: of.letters, number }).id
  }
  const labelled = (stop: Stop): Stop => {
    const samples = stop.samples.map((sample) => (isLabelled(sample) ? { ...sample, label: label() } : sample))
    return { ...stop, samples: samples.map((sample) => repeating(sample, samples)) }
  }
  return { ...of.plan, stops: of.plan.stops.map(labelled) }
}

/** A duplicate names the label of the sample it repeats. */
function repeating(sample: Stop['samples'][number], samples: Stop['samples']): Stop['samples'][number] {
  if (sample.repeats === undefined) return sample
  const first = samples.find(({ sampleKind }) => sampleKind === sample.repeats)
  return first?.label === undefined ? sample : { ...sample, repeats: first.label }
}

function highestOf(taken: Iterable<string>, letters: string): number {
  let highest = 0
  for (const text of taken) {
    const reading = readLabel(text)
    if (reading.kind === 'ok' && reading.label.prefix === letters) highest = Math.max(highest, reading.label.number)
  }
  return highest
}

/** Every label of the investigation, planned in any round or collected. */
export function labelsTaken(state: InvestigationState): Set<string> {
  const taken = new Set(state.fieldwork.samples.keys())
  for (const round of state.plan.rounds.values()) for (const label of labelsOf(round.body.plan)) taken.add(label)
  for (const { body } of state.fieldwork.addedStops)
    for (const { label } of body.stop.samples) if (label !== undefined) taken.add(label)
  return taken
}

export const labelsOf = (plan: Plan): string[] =>
  plan.stops.flatMap(({ samples }) => samples.flatMap(({ label }) => label ?? []))

/**
 * The three letters of an investigation: those already on its labels, else three different letters of its title, vowels left out
 * where others are enough.
 *
 * @example labelLetters({ title: 'Marram House', taken: [] }) // 'MRH'
 */
export function labelLetters({ title, taken }: { title: string; taken: Iterable<string> }): string {
  for (const text of taken) {
    const reading = readLabel(text)
    if (reading.kind === 'ok') return reading.label.prefix
  }
  const usable = [...title.normalize('NFD').toUpperCase()].filter((letter) => LABEL_LETTERS.includes(letter))
  const consonants = usable.filter((letter) => letter !== 'A' && letter !== 'E')
  const letters = [...new Set([...consonants, ...usable, ...FALLBACK])].slice(0, 3).join('')
  return isLabelPrefix(letters) ? letters : FALLBACK
}

const FALLBACK = 'RMK'
