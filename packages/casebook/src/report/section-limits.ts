import { sweepStanding } from '../building/devices.ts'
import { countKnown } from '../building/weakest-known.ts'
import { latestPrediction } from '../conditions/latest-prediction.ts'
import { custodyView } from '../custody/custody-view.ts'
import { neutralizerOf } from '../fieldwork/neutralizer-check.ts'
import { isolateComparisons } from '../findings/isolate-ladder.ts'
import { counted } from '../units/counted.ts'
import { unitOf } from '../units/result-value.ts'
import type { ReportContext } from './context.ts'
import type { Block, Said, Section } from './model.ts'
import { heading, listed, told, written } from './words.ts'

/** What this report can't say: computed from the record, then in the author's words. */
export function limitsSection(context: ReportContext): Section {
  const { state, said, numbersOf } = context
  const own = state.report.sections.get('limits')
  const items = [
    ...aboutResults(context),
    ...aboutSamples(context),
    ...aboutBuilding(context),
    ...aboutPrediction(context),
    ...aboutRecord(context),
  ]
  const blocks: Block[] = [
    heading('From the record'),
    items.length === 0 ? told('The record shows no limit of its own yet.') : { block: 'list', items },
    heading('In the author’s words'),
    own === undefined ? told('Nothing was added.') : written(said(own.body.text), numbersOf(own)),
  ]
  return { id: 'limits', title: 'Limits', blocks }
}

function aboutResults(context: ReportContext): Said[] {
  const { rows, resultNumbers, redacted } = context
  const labels = (test: (row: (typeof rows)[number]) => boolean): string[] =>
    rows.filter(test).map(({ label }) => label)
  const below = labels(({ outcome, medium }) => outcome === 'negative' && medium !== 'blank')
  const unread = labels(({ outcome }) => outcome === 'not interpretable')
  const waiting = labels(({ outcome }) => outcome === 'waiting')
  const treated = labels(({ sinceTreatment, afterFilter }) => sinceTreatment !== undefined || afterFilter)
  const half = labels(({ results }) => results.some(({ entry }) => entry.body.halfLimitSuspected === true))
  const blanks = labels(({ medium, outcome }) => medium === 'blank' && outcome === 'positive')
  const units = [
    ...new Set(rows.flatMap(({ results }) => results.flatMap(({ entry }) => unitOf(entry.body.value) ?? []))),
  ]
  const said = (list: readonly string[], words: string): Said[] =>
    list.length === 0 ? [] : [{ text: words, entries: resultNumbers(list) }]
  return [
    ...said(
      below,
      `${counted(below.length, 'sample')} without detection: each says that nothing was found in the volume examined, by its method, on its day. None says that the water is free of Legionella.`,
    ),
    ...said(
      unread,
      `${counted(unread.length, 'sample')} overgrown, broken or not tested: no negative, and nothing is known there.`,
    ),
    ...(waiting.length === 0 ? [] : [{ text: `${counted(waiting.length, 'sample')} without a result on this day.` }]),
    ...said(
      treated,
      `${counted(treated.length, 'sample')} taken after a treatment or through a filter: they speak of the treated state only.`,
    ),
    ...said(half, `${counted(half.length, 'value')} that look like half of a detection limit, counted as negative.`),
    ...said(
      blanks,
      `${counted(blanks.length, 'field blank')} positive: the handling of that round is in doubt, and with it every result of the round.`,
    ),
    ...(units.length < 2
      ? []
      : [
          {
            text: `Results were reported in ${listed(units)}; they are not compared across kinds of count, nor swabs with water.`,
          },
        ]),
    ...isolateLimits(context, redacted),
  ]
}

function isolateLimits({ state, numbersOf }: ReportContext, redacted: boolean): Said[] {
  const open = isolateComparisons(state).filter(
    ({ rungs }) => rungs['sequence type'] === 'not compared' && !Object.values(rungs).includes('different'),
  )
  const isolates = [...state.results.isolates.values()]
  const withIsolate = new Set(isolates.flatMap(({ body }) => (body.from.origin === 'case' ? [body.from.caseCode] : [])))
  const without = [...state.cases.cases.values()].filter(
    ({ body }) => body.classification !== 'not a case' && !withIsolate.has(body.code),
  )
  return [
    ...(open.length === 0
      ? []
      : [
          {
            text: `${counted(open.length, 'comparison')} of isolates could not be carried to the sequence type.`,
            entries: numbersOf(...open.flatMap(({ caseIsolate, sampleIsolate }) => [caseIsolate, sampleIsolate])),
          },
        ]),
    ...(without.length === 0
      ? []
      : [
          {
            text: `${counted(without.length, 'case')} without an isolate${redacted ? '' : ` (${without.map(({ body }) => body.code).join(', ')})`}: no comparison with the building is possible.`,
            entries: numbersOf(...without),
          },
        ]),
  ]
}

function aboutSamples(context: ReportContext): Said[] {
  const { state, numbersOf, followUp } = context
  const lastMs = Date.parse(state.record.entries.at(-1)?.instant ?? '1970-01-01T00:00:00Z')
  const { late, exceptions, consignments } = custodyView(state, lastMs)
  const samplesOf = (list: readonly { label: string }[]): number[] =>
    numbersOf(...list.map(({ label }) => state.fieldwork.samples.get(label)))
  const off = consignments.filter(
    ({ temperature }) => !['within', 'within, as far as measured', 'no range'].includes(temperature.judgement),
  )
  const unsure = [...state.fieldwork.samples.keys()].filter((label) => {
    const verdict = neutralizerOf(state, label)
    return verdict !== undefined && (verdict.covers !== 'covered' || verdict.expired)
  })
  const deviations = [...state.fieldwork.visits.values()].flatMap((visit) => visit.deviations)
  return [
    ...(late.length === 0
      ? []
      : [{ text: `${counted(late.length, 'sample')} past the hold time in use.`, entries: samplesOf(late) }]),
    ...(exceptions.length === 0
      ? []
      : [
          {
            text: `${counted(exceptions.length, 'sample')} arrived in a condition the laboratory noted.`,
            entries: samplesOf(exceptions),
          },
        ]),
    ...(unsure.length === 0
      ? []
      : [
          {
            text: `${counted(unsure.length, 'sample')} whose neutralizer is not shown to have been enough: what residual was left may have killed on the way.`,
            entries: numbersOf(...unsure.map((label) => state.fieldwork.samples.get(label))),
          },
        ]),
    ...off.map(({ code, temperature }) => ({
      text: `Consignment ${code}: transport temperature ${temperature.judgement}.`,
      entries: numbersOf(state.custody.consignments.get(code)?.opened),
    })),
    ...(deviations.length === 0
      ? []
      : [
          {
            text: `${counted(deviations.length, 'departure')} from procedure or plan, each listed under fieldwork.`,
            entries: numbersOf(...deviations),
          },
        ]),
    ...[...state.plan.rounds.values()].flatMap((adopted) =>
      adopted.body.plan.couldHide
        .slice(0, 1)
        .map((text) => ({ text: `Round ${adopted.body.round} as planned: ${text}`, entries: numbersOf(adopted) })),
    ),
    ...(followUp.couldMiss === undefined ? [] : [{ text: followUp.couldMiss.words }]),
  ]
}

function aboutBuilding({ state, numbersOf }: ReportContext): Said[] {
  const { system, sweep, described } = state.building
  const answers = new Map([...sweep].map(([device, { body }]) => [device, body.state]))
  const open = sweepStanding(answers).filter(({ answer }) => answer === 'not looked at')
  const counts = system === undefined ? new Map() : countKnown([...system.components, ...system.pipes, system.supply])
  const guessed: number = counts.get('guessed') ?? 0
  const silent: number = counts.get(undefined) ?? 0
  return [
    ...(open.length === 0
      ? []
      : [
          {
            text: `${counted(open.length, 'kind')} of device not looked at, listed under the building.`,
            entries: numbersOf(...open.map(({ device }) => sweep.get(device.id))),
          },
        ]),
    ...(guessed + silent === 0
      ? []
      : [
          {
            text: `${counted(guessed, 'fact')} of the building guessed and ${silent} without a word on how they are known; the diagram and the plan rest on them too.`,
            entries: numbersOf(described),
          },
        ]),
  ]
}

/** What was predicted is no finding. */
function aboutPrediction({ state, numbersOf }: ReportContext): Said[] {
  const latest = latestPrediction(state)
  if (latest === undefined) return []
  const { assumptions, cannotSay } = latest.entry.body
  const gaps = cannotSay.length === 0 ? '' : ` Of ${counted(cannotSay.length, 'part')} nothing could be said.`
  const changed = latest.changed === 'fitted values' ? 'The fitted values changed' : 'The building was edited'
  const old = latest.stale ? ` ${changed} since.` : ''
  return [
    {
      text: `Predicted conditions were computed by a screening model with ${counted(assumptions.length, 'assumption')}, not measured; no finding rests on them alone.${gaps}${old}`,
      entries: numbersOf(latest.entry),
    },
  ]
}

function aboutRecord({ state, criteria, numbersOf, said }: ReportContext): Said[] {
  const open = state.brief.notes.filter(
    ({ id, body }) => body.purpose === 'open question' && !state.brief.settled.has(id),
  )
  return [
    ...(criteria.kind === 'chosen' && criteria.set.status !== 'verified'
      ? [{ text: `The chosen criteria are ${criteria.set.status}.`, entries: numbersOf(state.findings.criteria) }]
      : []),
    ...open.map((note) => ({ text: `Open question: ${said(note.body.text)}`, entries: numbersOf(note) })),
  ]
}
