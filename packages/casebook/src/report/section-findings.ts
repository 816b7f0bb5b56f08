import { CONFIDENCE_WORDS } from '../findings/confidence.ts'
import { drawPairs, PATTERN_WORDS, pairCounts } from '../findings/draw-pairs.ts'
import { isolateComparisons, LEVELS } from '../findings/isolate-ladder.ts'
import {
  GROUPINGS,
  type Grouping,
  groupWords,
  positivity,
  type PositivityGroup,
  positivityWords,
} from '../findings/positivity.ts'
import type { ReportContext } from './context.ts'
import type { Block, Row, Section } from './model.ts'
import { rowPlace } from './section-results.ts'
import { column, heading, listed, table, told, written } from './words.ts'
import { capital } from '../units/capital.ts'

export function findingsSection(context: ReportContext): Section {
  const blocks: Block[] = [
    heading('Conclusions'),
    ...conclusionBlocks(context),
    heading('Positive samples by group'),
    positivityTable(context),
    heading('First draw and flushed'),
    ...pairBlocks(context),
    heading('Isolates'),
    ...isolateBlocks(context),
  ]
  return { id: 'findings', title: 'Findings', blocks }
}

function conclusionBlocks(context: ReportContext): Block[] {
  const { state, said, numbersOf } = context
  const { conclusions } = state.findings
  if (conclusions.length === 0) return [told('No conclusion has been written.')]
  return conclusions.flatMap((entry, index): Block[] => {
    const { statement, strength, evidence, wouldChangeIt } = entry.body
    const entries = numbersOf(entry)
    return [
      written(`${index + 1}. ${said(statement)}`, entries),
      {
        block: 'facts',
        facts: [
          { name: 'Strength', text: strength },
          ...evidence.map(({ ref, words, speaks }) => ({
            name: speaks === 'for' ? 'For' : 'Against',
            text: said(words),
            entries: evidenceNumbers(context, ref),
          })),
          ...(wouldChangeIt === undefined ? [] : [{ name: 'Would change it', text: said(wouldChangeIt) }]),
        ],
      },
    ]
  })
}

/** Evidence points at an entry, a sample's label or an isolate's code. */
function evidenceNumbers({ state, numbersOf, numberOfId }: ReportContext, ref: string): number[] {
  const number = numberOfId(ref)
  if (number !== undefined) return [number]
  const sample = state.fieldwork.samples.get(ref) ?? state.results.registered.get(ref)
  return numbersOf(sample, ...(state.results.resultsByLabel.get(ref) ?? []), state.results.isolates.get(ref))
}

const SHOWN: readonly Grouping[] = ['round', 'riser', 'floor', 'circuit', 'sampleKind', 'temperature', 'draw']

function positivityTable({ rows, resultNumbers, units }: ReportContext): Block {
  const lines = SHOWN.flatMap((by): Row[] => {
    const groups = positivity(rows, by)
    const keys = [...new Set(groups.map(({ key }) => key))]
    return keys.map((key, index) => {
      const own = groups.filter((group) => group.key === key)
      const of = (medium: PositivityGroup['medium']): string => {
        const group = own.find((one) => one.medium === medium)
        return group === undefined ? '' : positivityWords(group)
      }
      return {
        cells: [
          index === 0 ? { text: capital(GROUPINGS[by]), strong: true } : '',
          own[0] === undefined ? key : groupWords(own[0], units),
          of('water'),
          of('swab'),
          besideWords(own),
        ],
        entries: resultNumbers(own.flatMap(({ labels }) => labels)),
      }
    })
  })
  return table({
    caption: `Positive of readable samples, with Wilson’s ${CONFIDENCE_WORDS} interval of the share`,
    columns: [
      column('By', 1.5),
      column('Group', 1.8),
      column('Water', 1.7),
      column('Swab with first flush', 1.7),
      column('Beside', 2.4),
    ],
    rows: lines,
    note: 'Swabs and water are counted apart. Blanks are left out and a duplicate does not count twice. Samples after treatment speak of the treated state only. The interval supposes samples independent of one another, which neighbouring outlets are not quite.',
    none: 'No sample can be counted yet.',
  })
}

/** What the counts leave out or must be read with. */
function besideWords(groups: readonly PositivityGroup[]): string {
  const sum = (field: 'waiting' | 'notInterpretable' | 'halfLimit' | 'afterTreatment'): number =>
    groups.reduce((all, group) => all + group[field], 0)
  const parts = [
    [sum('waiting'), 'waiting'],
    [sum('notInterpretable'), 'not interpretable'],
    [sum('halfLimit'), 'half limits'],
    [sum('afterTreatment'), 'after treatment'],
  ] as const
  return parts.flatMap(([count, words]) => (count === 0 ? [] : [`${count} ${words}`])).join(', ')
}

function pairBlocks(context: ReportContext): Block[] {
  const { rows, state, numbersOf } = context
  const pairs = drawPairs(rows)
  const counts = pairCounts(pairs)
  const patterns = (['both', 'first draw only', 'flushed only', 'neither'] as const).flatMap((pattern) =>
    counts[pattern] === 0 ? [] : [`${counts[pattern]} ${pattern} (${PATTERN_WORDS[pattern]})`],
  )
  return [
    ...(patterns.length === 0 ? [] : [told(`${listed(patterns)}.`)]),
    table({
      caption:
        'First-draw and flushed samples of one outlet in one round, by presence; pairs with nothing found either way are only counted',
      columns: [
        column('Outlet', 2.6),
        column('Round', 0.8),
        column('First draw', 2),
        column('Flushed', 2),
        column('Pattern', 1.6),
      ],
      rows: pairs
        .filter(({ pattern }) => pattern !== 'neither')
        .map(({ first, flushed, pattern }) => ({
          cells: [
            rowPlace(context, first),
            first.round ?? '',
            { text: first.outcome, sub: first.label },
            { text: flushed.outcome, sub: flushed.label },
            pattern ?? 'not settled',
          ],
          entries: numbersOf(...[first, flushed].flatMap(({ label }) => state.results.resultsByLabel.get(label) ?? [])),
        })),
      none: pairs.length === 0 ? 'No outlet has both a first-draw and a flushed sample.' : 'No pair shows a detection.',
    }),
  ]
}

function isolateBlocks(context: ReportContext): Block[] {
  const { state, numbersOf } = context
  const isolates = [...state.results.isolates.values()]
  if (isolates.length === 0) return [told('No isolate is recorded.')]
  const nameOf = isolateNames(context)
  const rows: Row[] = isolates.map((entry) => {
    const { code, from, species, serogroup, monoclonalType, sequenceType, laboratory } = entry.body
    const origin =
      from.origin === 'case' ? (context.redacted ? 'a case' : `case ${from.caseCode}`) : `sample ${from.label}`
    return {
      cells: [
        { text: nameOf(code), mono: true },
        origin,
        species,
        serogroup ?? '–',
        monoclonalType ?? '–',
        sequenceType ?? '–',
        laboratory ?? '',
      ],
      entries: numbersOf(entry),
    }
  })
  return [
    table({
      caption: 'Isolates',
      columns: [
        column('Isolate', 1.2),
        column('From', 1.6),
        column('Species', 1.6),
        column('Serogroup', 1),
        column('Monoclonal type', 1.2),
        column('Sequence type', 1.1),
        column('Laboratory', 1.8),
      ],
      rows,
      none: '',
    }),
    comparisonTable(context, nameOf),
    told(
      'The same type is a reason to think of a common source and never proves one; how much it weighs depends on how common the type is where it was found. A sample may hold strains that were not picked.',
    ),
  ]
}

function comparisonTable(context: ReportContext, nameOf: (code: string) => string): Block {
  return table({
    caption: 'Isolates of cases beside isolates of the building, from the coarsest typing to the finest',
    columns: [
      column('Case isolate', 1.2),
      column('Building isolate', 1.2),
      ...LEVELS.map((level) => column(capital(level), 1.1)),
      column('In words', 3),
    ],
    rows: isolateComparisons(context.state).map(({ caseIsolate, sampleIsolate, rungs, sentence }) => ({
      cells: [
        { text: nameOf(caseIsolate.body.code), mono: true },
        { text: nameOf(sampleIsolate.body.code), mono: true },
        ...LEVELS.map((level) => rungs[level]),
        sentence,
      ],
      entries: context.numbersOf(caseIsolate, sampleIsolate),
    })),
    none: 'There is no pair of a case isolate and a building isolate to compare.',
  })
}

/** Codes of isolates often hold the code of a case, so the redacted variant counts them instead. */
function isolateNames({ state, redacted }: ReportContext): (code: string) => string {
  if (!redacted) return (code) => code
  const counts = { case: 0, sample: 0 }
  const names = new Map<string, string>()
  for (const { body } of state.results.isolates.values()) {
    const { origin } = body.from
    counts[origin] += 1
    names.set(body.code, `${origin === 'case' ? 'case' : 'building'} isolate ${counts[origin]}`)
  }
  return (code) => names.get(code) ?? 'isolate'
}
