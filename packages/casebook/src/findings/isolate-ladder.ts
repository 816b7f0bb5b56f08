import type { EffectiveEntry } from '../state/effective.ts'
import type { InvestigationState } from '../state/investigation-state.ts'

export const LEVELS = ['species', 'serogroup', 'monoclonal type', 'sequence type'] as const
export type Level = (typeof LEVELS)[number]
export type Agreement = 'same' | 'different' | 'not compared'

/** An isolate of a case beside an isolate of a sample, rung by rung from the coarsest typing to the finest. */
export interface IsolateComparison {
  readonly caseIsolate: EffectiveEntry<'isolate.recorded'>
  readonly sampleIsolate: EffectiveEntry<'isolate.recorded'>
  readonly rungs: Readonly<Record<Level, Agreement>>
  readonly sentence: string
}

/** Every isolate of a case against every isolate of a sample. */
export function isolateComparisons(state: InvestigationState): IsolateComparison[] {
  const isolates = [...state.results.isolates.values()]
  const ofCases = isolates.filter(({ body }) => body.from.origin === 'case')
  const ofSamples = isolates.filter(({ body }) => body.from.origin === 'sample')
  return ofCases.flatMap((caseIsolate) => ofSamples.map((sampleIsolate) => compareIsolates(caseIsolate, sampleIsolate)))
}

function compareIsolates(
  caseIsolate: EffectiveEntry<'isolate.recorded'>,
  sampleIsolate: EffectiveEntry<'isolate.recorded'>,
): IsolateComparison {
  const [a, b] = [typesOf(caseIsolate), typesOf(sampleIsolate)]
  const rungs = Object.fromEntries(LEVELS.map((level) => [level, agreement(a[level], b[level])])) as Record<
    Level,
    Agreement
  >
  return { caseIsolate, sampleIsolate, rungs, sentence: sentenceOf(rungs) }
}

function agreement(a: string | undefined, b: string | undefined): Agreement {
  if (a === undefined || b === undefined) return 'not compared'
  return a === b ? 'same' : 'different'
}

function typesOf({ body }: EffectiveEntry<'isolate.recorded'>): Record<Level, string | undefined> {
  return {
    species: folded(body.species)?.replace(/^l\.?\s+/, 'legionella '),
    serogroup: folded(body.serogroup)?.replace(/^(?:serogroup|sg)\s*\.?\s*/, ''),
    'monoclonal type': folded(body.monoclonalType),
    'sequence type': folded(body.sequenceType)?.replace(/^st\s*-?\s*/, ''),
  }
}

function folded(text: string | undefined): string | undefined {
  const bare = text?.trim().toLowerCase().replace(/\s+/g, ' ')
  return bare === undefined || bare === '' || /^(?:unknown|not (?:typed|done|known)|-|\?)$/.test(bare)
    ? undefined
    : bare
}

/** Says how far the comparison went. The same type is a reason, never proof; one difference speaks against, within its typing. */
function sentenceOf(rungs: Readonly<Record<Level, Agreement>>): string {
  const different = LEVELS.filter((level) => rungs[level] === 'different')
  const same = LEVELS.filter((level) => rungs[level] === 'same')
  const open = LEVELS.filter((level) => rungs[level] === 'not compared')
  if (different.length > 0)
    return `Different ${list(different)}: this isolate does not match this case. The sample may hold other strains that were not picked.`
  if (same.length === 0) return 'Not compared at any level: nothing can be said.'
  const finest = same.at(-1)
  const strength =
    finest === 'sequence type'
      ? 'They fit a common source; how much that weighs depends on how common the type is.'
      : 'This is shared by many unrelated strains and says little by itself.'
  const missing = open.length === 0 ? '' : ` Not compared: ${list(open)}.`
  return `Same ${list(same)}. ${strength}${missing}`
}

function list(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`
}
