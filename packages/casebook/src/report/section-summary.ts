import { headline } from '../findings/headline.ts'
import { CLASSIFICATIONS } from '../cases/kinds.ts'
import { isolateComparisons } from '../findings/isolate-ladder.ts'
import { counted } from '../units/counted.ts'
import type { ReportContext } from './context.ts'
import { statusOf } from './header.ts'
import type { Block, Said, Section } from './model.ts'
import { heading, told, written } from './words.ts'

type Fact = Said & { readonly name: string }

export function summarySection(context: ReportContext): Section {
  const { state, said, numbersOf } = context
  const own = state.report.sections.get('summary')
  const advice = state.report.sections.get('recommendations')
  const blocks: Block[] = [
    own === undefined ? told('No summary has been written.') : written(said(own.body.text), numbersOf(own)),
    heading('What the record shows'),
    { block: 'facts', facts: factsOf(context) },
    heading('Recommendations'),
    advice === undefined
      ? told('No recommendations have been written. Measures ordered are in the section on control.')
      : written(said(advice.body.text), numbersOf(advice)),
  ]
  return { id: 'summary', title: 'Summary', blocks }
}

function factsOf(context: ReportContext): Fact[] {
  const { state, said, numbersOf, rows, resultNumbers, followUp } = context
  const { opened } = state.brief
  const found = headline(rows)
  return [
    ...(opened === undefined
      ? []
      : [{ name: 'Why it was opened', text: said(opened.body.reason), entries: numbersOf(opened) }]),
    casesFact(context),
    { name: 'Detection', text: `${found.title} ${found.lead}`, entries: resultNumbers(rows.map(({ label }) => label)) },
    ...found.facts.map(({ words, labels }, index) => ({
      name: index === 0 ? 'Where' : '',
      text: `${words}.`,
      entries: resultNumbers(labels),
    })),
    ...criteriaFact(context),
    ...isolatesFact(context),
    controlFact(context),
    { name: 'Standing', text: `${statusOf(context)}.`, entries: numbersOf(followUp.closed ?? followUp.started) },
  ]
}

function casesFact({ state, numbersOf, redacted }: ReportContext): Fact {
  const cases = [...state.cases.cases.values()]
  const parts = CLASSIFICATIONS.flatMap((classification) => {
    const count = cases.filter(({ body }) => body.classification === classification).length
    return count === 0 ? [] : [`${count} ${classification}`]
  })
  const counts =
    parts.length === 0
      ? 'No case is recorded.'
      : `${counted(cases.length, { one: 'person', many: 'people' })}: ${parts.join(', ')}.`
  const onsets = cases.flatMap(({ body }) => body.onsetDate ?? []).sort()
  const [first, last] = [onsets[0], onsets.at(-1)]
  const span = first === undefined || redacted ? '' : ` Onsets from ${first} to ${last}.`
  return { name: 'Cases', text: `${counts}${span}`, entries: numbersOf(...cases) }
}

function criteriaFact({ criteria, state, numbersOf }: ReportContext): Fact[] {
  if (criteria.kind === 'none')
    return [{ name: 'Criteria', text: 'No criteria set was chosen; results are not judged by bands.' }]
  const entries = numbersOf(state.findings.criteria)
  if (criteria.kind === 'missing')
    return [{ name: 'Criteria', text: `${criteria.id}, version ${criteria.version}: ${criteria.reason}.`, entries }]
  const { title, version, status } = criteria.set
  return [{ name: 'Criteria', text: `${title}, version ${version} (${status}).`, entries }]
}

function isolatesFact({ state, numbersOf }: ReportContext): Fact[] {
  const pairs = isolateComparisons(state)
  if (pairs.length === 0) return []
  const level = (rungs: (typeof pairs)[number]['rungs']): string =>
    Object.values(rungs).includes('different')
      ? 'different'
      : rungs['sequence type'] === 'same'
        ? 'same'
        : 'not settled'
  const count = (wanted: string): number => pairs.filter(({ rungs }) => level(rungs) === wanted).length
  return [
    {
      name: 'Isolates',
      text: `${counted(pairs.length, 'comparison')} of a case isolate with a building isolate: ${count('same')} the same down to sequence type, ${count('different')} different at some level, ${count('not settled')} not compared that far. The same type fits a common source and does not prove one.`,
      entries: numbersOf(...state.results.isolates.values()),
    },
  ]
}

function controlFact({ state, numbersOf }: ReportContext): Fact {
  const measures = [...state.control.measures.values()]
  if (measures.length === 0) return { name: 'Control', text: 'No measure was ordered.' }
  const done = measures.filter(({ completed }) => completed?.body.outcome === 'carried out').length
  const open = measures.filter(({ completed }) => completed === undefined).length
  const text = `${counted(measures.length, 'measure')} ordered: ${done} carried out, ${open} not completed, ${measures.length - done - open} partly or dropped.`
  return { name: 'Control', text, entries: numbersOf(...measures.map(({ ordered }) => ordered)) }
}
