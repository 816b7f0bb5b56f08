import { isLabelPrefix, LABEL_LETTERS, makeLabel, readLabel } from '../label/label.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import type { Plan, Stop } from './plan-file.ts'
import { isLabelled } from './samples-at.ts'

/** Label numbers for samples that were not planned; planned ones count up below them, and past those taken when they reach them. */
export const SPARE = { first: 5000, last: 9999 } as const

/**
 * The plan with a label on every sample that goes to the laboratory, counted up in walking order from the highest number taken, spare ones aside. The
 * same plan and the same labels taken give the same labels.
 *
 * @param of.taken every label of the investigation so far, planned or collected
 * @param of.letters the investigation's three letters
 * @throws RangeError when the letters can't be printed or the numbers run out at 9999
 */
export function labelPlan(of: { plan: Plan; taken: Iterable<string>; letters: string }): Plan {
  const taken = numbersOf(of.taken, of.letters)
  let number = Math.max(0, ...[...taken].filter((each) => each < SPARE.first))
  const label = (): string => {
    do number += 1
    while (taken.has(number))
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

/** The numbers among labels with these letters. */
export function numbersOf(labels: Iterable<string>, letters: string): Set<number> {
  const numbers = new Set<number>()
  for (const text of labels) {
    const reading = readLabel(text)
    if (reading.kind === 'ok' && reading.label.prefix === letters) numbers.add(reading.label.number)
  }
  return numbers
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
