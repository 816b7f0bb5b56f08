import { type PositivityGroup, positivity } from './positivity.ts'
import { disagreeingDuplicates } from './duplicate-pairs.ts'
import { drawPairs, pairCounts } from './draw-pairs.ts'
import { isTakenAgain } from '../results/taken-again.ts'
import type { SampleRow } from './sample-rows.ts'
import { counted } from '../units/counted.ts'

export interface Fact {
  readonly words: string
  /** labels it rests on, so that selecting it lights them up */
  readonly labels: readonly string[]
}

export interface Headline {
  readonly title: string
  readonly lead: string
  readonly facts: readonly Fact[]
}

/** What the counts show, in words computed from them. Says where detections stand and where not; gives no probability and no cause. */
export function headline(rows: readonly SampleRow[]): Headline {
  const readable = rows.filter(isReadable)
  const positive = readable.filter(({ outcome }) => outcome === 'positive')
  const lead = leadOf(rows, readable.length)
  if (rows.length === 0)
    return {
      title: 'No sample has been taken yet.',
      lead: 'Samples and results appear here as they come in.',
      facts: [],
    }
  if (readable.length === 0) return { title: 'No result can be read yet.', lead, facts: [] }
  const facts = [
    ...blankFacts(rows),
    ...riserFacts(readable),
    ...pairFacts(rows),
    ...duplicateFacts(rows),
    ...treatmentFacts(rows),
    ...repeatFacts(rows),
  ]
  if (positive.length === 0)
    return {
      title: `Nothing was detected in ${counted(readable.length, 'sample')}.`,
      lead: `${lead} A negative speaks for the volume and the method, never for the whole building.`,
      facts,
    }
  return {
    title: `Detected in ${positive.length} of ${counted(readable.length, 'sample')}${whereOf(positive)}.`,
    lead,
    facts,
  }
}

/** A duplicate repeats a bottle already counted; a blank is no water of the building. */
function isReadable({ outcome, medium, sampleKind }: SampleRow): boolean {
  return medium !== 'blank' && sampleKind !== 'duplicate' && (outcome === 'positive' || outcome === 'negative')
}

function leadOf(rows: readonly SampleRow[], readable: number): string {
  const waiting = rows.filter(({ outcome }) => outcome === 'waiting').length
  const treated = rows.filter(({ sinceTreatment, afterFilter }) => sinceTreatment !== undefined || afterFilter).length
  const parts = [`From ${counted(readable, 'sample')} with a readable result.`]
  if (waiting > 0) parts.push(`${counted(waiting, 'sample')} ${waiting === 1 ? 'is' : 'are'} still out.`)
  if (treated > 0)
    parts.push(`${counted(treated, 'sample')} ${treated === 1 ? 'was' : 'were'} taken after a treatment or filter.`)
  return parts.join(' ')
}

function whereOf(positive: readonly SampleRow[]): string {
  const risers = [...new Set(positive.map(({ riser }) => riser))].sort((a, b) => ((a ?? '~') < (b ?? '~') ? -1 : 1))
  if (risers.includes(undefined)) return ''
  if (risers.length === 1) return `, ${positive.length === 1 ? '' : 'all '}on riser ${risers[0]}`
  return risers.length <= MOST_NAMED
    ? `, on risers ${risers.slice(0, -1).join(', ')} and ${risers.at(-1)}`
    : `, on ${risers.length} risers`
}

const MOST_NAMED = 4

/** For each kind of sample: the riser with the largest share, against all the others together. */
function riserFacts(readable: readonly SampleRow[]): Fact[] {
  return (['swab', 'water'] as const).flatMap((medium) => {
    const groups = positivity(
      readable.filter((row) => row.medium === medium && row.riser !== undefined),
      'riser',
    )
    const [top] = [...groups].sort((a, b) => (b.estimate ?? 0) - (a.estimate ?? 0) || b.total - a.total)
    if (top === undefined || top.positive === 0) return []
    const others = groups.filter((group) => group !== top)
    const elsewhere = { positive: sum(others, 'positive'), total: sum(others, 'total') }
    const kind = medium === 'swab' ? 'first-flush and swab samples' : 'water samples'
    const rest =
      elsewhere.total === 0
        ? '; no other riser has a readable one'
        : `; ${elsewhere.positive} of ${elsewhere.total} on the other risers`
    return [{ words: `${top.positive} of ${top.total} ${kind} on ${top.words} detected${rest}`, labels: top.labels }]
  })
}

function sum(groups: readonly PositivityGroup[], field: 'positive' | 'total'): number {
  return groups.reduce((all, group) => all + group[field], 0)
}

function pairFacts(rows: readonly SampleRow[]): Fact[] {
  const pairs = drawPairs(rows).filter(({ first }) => first.outcome === 'positive')
  const counts = pairCounts(pairs)
  const judged = counts.both + counts['first draw only']
  if (judged === 0) return []
  return [
    {
      words: `${counts.both} of ${judged} pairs of samples positive at first draw stay positive after running`,
      labels: pairs.flatMap(({ first, flushed }) => [first.label, flushed.label]),
    },
  ]
}

function blankFacts(rows: readonly SampleRow[]): Fact[] {
  const bad = rows.filter(({ medium, outcome }) => medium === 'blank' && outcome === 'positive')
  return bad.length === 0
    ? []
    : [
        {
          words: `${counted(bad.length, 'field blank')} positive: the handling is in doubt, and so is every result of that round`,
          labels: bad.map(({ label }) => label),
        },
      ]
}

function duplicateFacts(rows: readonly SampleRow[]): Fact[] {
  return disagreeingDuplicates(rows).map(({ words, first, duplicate }) => ({
    words,
    labels: [first.label, duplicate.label],
  }))
}

function treatmentFacts(rows: readonly SampleRow[]): Fact[] {
  const negative = rows.filter(
    ({ outcome, sinceTreatment, afterFilter }) =>
      outcome === 'negative' && (sinceTreatment !== undefined || afterFilter),
  )
  return negative.length === 0
    ? []
    : [
        {
          words: `${counted(negative.length, 'negative sample')} taken after a treatment or filter: ${negative.length === 1 ? 'it does' : 'they do'} not tell how it was before`,
          labels: negative.map(({ label }) => label),
        },
      ]
}

function repeatFacts(rows: readonly SampleRow[]): Fact[] {
  const unread = rows.filter(({ outcome }) => outcome === 'not interpretable')
  if (unread.length === 0) return []
  const isUnread = (wanted: string): boolean => unread.some(({ label }) => label === wanted)
  const open = unread.filter((row) => !isTakenAgain(row, { others: rows, isUnread })).length
  const again = open === 0 ? '; each was taken again' : `; ${open} to be taken again`
  return [
    {
      words: `${counted(unread.length, 'sample')} could not be read, which is no negative${again}`,
      labels: unread.map(({ label }) => label),
    },
  ]
}
