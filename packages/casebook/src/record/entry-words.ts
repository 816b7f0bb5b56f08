import { kindWord } from '../building/labels.ts'
import type { SystemChange } from '../building/kinds.ts'
import { isRejected } from '../custody/arrival.ts'
import type { LoggerSeries } from '../custody/kinds.ts'
import { amountWords } from '../control/target-words.ts'
import { wallClock } from '../units/local-time.ts'
import type { Entry } from '../entry/entry.ts'
import { type BodyOf, type Kind, KINDS } from '../entry/kinds.ts'
import type { StopTitles } from '../fieldwork/stops.ts'
import { fieldworkWords } from './fieldwork-words.ts'
import { counted } from '../units/counted.ts'
import { resultWords } from '../units/result-words.ts'

/** Says one body in one line; the kind's title and the envelope stand beside it. */
type Says<K extends Kind> = (body: BodyOf<K>, titles?: StopTitles) => string

/** A line no longer than a list shows. */
const LONGEST_LINE = 160

/** An entry's body in one line of words. The kind's title stands beside it and is not repeated. `titles` name the stops. */
export function entryWords(entry: Entry, titles?: StopTitles): string {
  const says = WORDS[entry.kind] as Says<Kind>
  return shortened(says(entry.body, titles))
}

function shortened(text: string): string {
  const line = text.replace(/\s+/g, ' ').trim()
  return line.length > LONGEST_LINE ? `${line.slice(0, LONGEST_LINE - 1).trimEnd()}…` : line
}

/** Parts that are there, after one another. */
function parts(...given: readonly (string | false | undefined)[]): string {
  return given.filter((part) => part !== undefined && part !== false && part !== '').join(', ')
}

const WORDS: { readonly [K in Kind]: Says<K> } = {
  'investigation.opened': ({ title, locality, setting, reason }) => `${parts(title, locality, setting)}: ${reason}`,
  'note.written': ({ text, purpose }) => (purpose === 'open question' ? `Open question: ${text}` : text),
  'calculation.recorded': ({ working }) => workingWords(working),
  'question.settled': ({ answer }) => answer,
  'case.recorded': ({ code, classification, onsetDate, link, isolate }) =>
    parts(
      `Case ${code}`,
      classification,
      onsetDate === undefined ? 'onset not known' : `onset ${onsetDate}`,
      `link ${link}`,
      `isolate ${isolate}`,
    ),
  'exposure.recorded': ({ caseCode, kind, place, from, to }) =>
    `Case ${caseCode}: ${kind} at ${place}, ${from} to ${to}`,
  'incubation.chosen': ({ definition, reason }) => parts(definition, reason),
  'building.described': ({ system, source }) =>
    `${system.name}, from ${source}: ${counted(system.components.length, 'component')}, ${counted(system.pipes.length, 'pipe')}`,
  'building.edited': ({ changes, why }) =>
    parts(changes.length === 1 ? changes.map(changeWords).join('') : counted(changes.length, 'change'), why),
  'device.swept': ({ device, state, place, notes }) => parts(`${device}: ${state}`, place, notes),
  'history.recorded': ({ on, until, what, text }) =>
    `${until === undefined ? on : `${on} to ${until}`}, ${what}: ${text}`,
  'prediction.recorded': ({ places, assumptions, note }) =>
    parts(counted(places.length, 'place'), counted(assumptions.length, 'assumption'), note),
  'fit.accepted': ({ round, inputs, readings, found, note }) =>
    parts(
      `${counted(inputs.length, 'value')} from ${counted(readings, 'reading')} of round ${round}`,
      ...found.map(({ kind }) => `a ${kind} taken as given`.replace(/^a (?=[aeiou])/, 'an ')),
      note,
    ),
  'procedure.added': ({ procedure, reason }) =>
    `${procedure.title}, version ${procedure.version}${reason === undefined ? '' : `: ${reason}`}`,
  'plan.adopted': ({ round, purpose, plan, scheduledOn }) =>
    parts(
      `${round}, ${purpose}`,
      counted(plan.stops.length, 'stop'),
      counted(plan.totals.samples, 'sample'),
      scheduledOn !== undefined && `for ${scheduledOn}`,
    ),
  ...fieldworkWords,
  'consignment.opened': ({ consignment, container, transportC }) =>
    parts(
      `${consignment}, a ${container}`,
      transportC !== undefined && `to be kept at ${transportC.lower} to ${transportC.upper} °C`,
    ),
  'sample.packed': ({ label, consignment }) => `${label} into ${consignment}`,
  'sample.unpacked': ({ label, consignment, reason }) => `${label} out of ${consignment}: ${reason}`,
  'consignment.sealed': ({ consignment, seal, temperatureC }) =>
    parts(`${consignment} with seal ${seal}`, celsius(temperatureC)),
  'seal.opened': ({ consignment, by, reason }) => `${consignment} by ${by.name}, ${by.role}: ${reason}`,
  'temperature.logged': ({ consignment, temperatureC, where, series }) =>
    parts(`${consignment}: ${series === undefined ? `${temperatureC} °C` : seriesWords(series)}`, where),
  'consignment.handed-over': ({ consignment, from, to, sealIntact, temperatureC, signedBy }) =>
    parts(
      `${consignment} from ${from.name} to ${to.name}`,
      sealWords(sealIntact),
      celsius(temperatureC),
      signedBy !== undefined && SIGNED_WORDS[signedBy.way],
    ),
  'consignment.accepted': ({ consignment, by, sealIntact, temperatureC }) =>
    parts(`${consignment} by ${by.name}, ${by.role}`, sealWords(sealIntact), celsius(temperatureC)),
  'sample.split': ({ label, split, volumeMl, to, purpose }) =>
    parts(`${volumeMl} mL of ${label} as ${split} for ${to.name}, ${to.role}`, purpose),
  'consignment.received': ({ consignment, laboratory, receivedBy, sealIntact, temperatureC, samples }) =>
    parts(
      `${consignment} at ${laboratory} by ${receivedBy.name}`,
      sealWords(sealIntact),
      celsius(temperatureC),
      conditionWords(samples),
    ),
  'results.imported': ({ fileName, laboratory, rows, accepted, setAside }) =>
    parts(
      `${fileName} of ${laboratory}`,
      `${accepted} of ${counted(rows, 'row')} accepted`,
      setAside.length > 0 && `${setAside.length} set aside`,
    ),
  'sample.registered': ({ label, takenBy, place, collectedOn, draw }) =>
    parts(`${label} by ${takenBy}`, place, draw !== 'not stated' && draw, collectedOn),
  'result.reported': ({ label, target, value, method, species, serogroup, status }) =>
    parts(
      `${label}: ${target} ${resultWords(value, { method })}`,
      species,
      serogroup !== undefined && `serogroup ${serogroup}`,
      status !== 'final' && status,
    ),
  'isolate.recorded': ({ code, from, species, serogroup, sequenceType }) =>
    parts(
      `${code} of ${from.origin === 'case' ? `case ${from.caseCode}` : `sample ${from.label}`}`,
      species,
      serogroup !== undefined && `serogroup ${serogroup}`,
      sequenceType !== undefined && `sequence type ${sequenceType}`,
    ),
  'criteria.chosen': ({ criteria, version, own, reason }) =>
    parts(`${criteria}, version ${version}`, own !== undefined && 'an own set', reason),
  'finding.concluded': ({ statement, strength }) => `${statement} (${strength})`,
  'measure.ordered': ({ measure, stage, where, owner, dueOn, target }) =>
    parts(
      `${measure} (${stage}) at ${where}`,
      `by ${owner}`,
      dueOn !== undefined && `due ${dueOn}`,
      target !== undefined && `target ${amountWords(target)}`,
    ),
  'measure.achieved': ({ component, at, achieved, reached, by }) =>
    parts(
      `${component ?? 'whole measure'}: target ${reached ? 'reached' : 'not reached'}`,
      achieved !== undefined && amountWords(achieved),
      `by ${by}`,
      `${wallClock({ instant: at, offset: '+00:00' })} UTC`,
    ),
  'measure.completed': ({ completedOn, outcome, reason }) => parts(`${outcome} on ${completedOn}`, reason),
  'follow-up.started': ({ remediationCompletedOn, criteria, version }) =>
    `remediation completed ${remediationCompletedOn}, by ${criteria}, version ${version}`,
  'follow-up.closed': ({ closedOn, ruleMet, overrideReason }) =>
    parts(`${closedOn}, rule ${ruleMet ? 'met' : 'not met'}`, overrideReason),
  'follow-up.reopened': ({ reason }) => reason,
  'report.written': ({ section, text }) => `${section}: ${text}`,
  'report.issued': ({ variant, issuedTo, headSequence }) =>
    `${variant} report to ${issuedTo}, of the record up to entry ${headSequence}`,
  'entry.withdrawn': () => 'the entry it names no longer counts',
  'device.joined': ({ name, role }) => `${name} as ${role}`,
  'device.revoked': ({ device, reason }) => `${device}: ${reason}`,
  'entry.contested': ({ entry }) => contestedWords(entry as Entry),
  'contest.settled': ({ decision, reason }) => `${decision}: ${reason}`,
}

function changeWords(change: SystemChange): string {
  switch (change.change) {
    case 'put-component':
      return `${kindWord(change.component.kind)} ${change.component.id} put`
    case 'put-pipe':
      return `pipe ${change.pipe.id} put`
    case 'remove-component':
    case 'remove-pipe':
      return `${change.id} taken away`
    case 'set-supply':
      return 'supply set'
    default:
      return `named ${change.name}`
  }
}

/** Who wrote the account that came second, and what it says. */
function contestedWords(entry: Entry): string {
  return `${entry.author}: ${KINDS[entry.kind].title.toLowerCase()}, ${(WORDS[entry.kind] as Says<Kind>)(entry.body)}`
}

/** The title and the first results of a working, whose lines stand one a result. */
function workingWords(working: string): string {
  return working.replace(/\n+Result\n- /, ': ').replace(/\n- /g, '; ')
}

const SIGNED_WORDS = {
  drawn: 'signed on the glass',
  device: 'to be accepted on the receiver’s device',
  paper: 'signed on paper',
} as const

function seriesWords({ logger, temperatureC, piece }: LoggerSeries): string {
  const [lowest, highest] = [Math.min(...temperatureC), Math.max(...temperatureC)]
  return parts(
    `${counted(temperatureC.length, 'reading')}${logger === undefined ? '' : ` of logger ${logger}`}`,
    `${lowest} to ${highest} °C`,
    piece !== undefined && piece.of > 1 && `piece ${piece.number} of ${piece.of}`,
  )
}

function conditionWords(samples: BodyOf<'consignment.received'>['samples']): string {
  const noted = samples.filter(({ condition }) => condition !== 'accepted').length
  const rejected = samples.filter(isRejected).length
  return parts(
    `${samples.length - noted} of ${counted(samples.length, 'sample')} accepted`,
    rejected > 0 && `${rejected} rejected`,
  )
}

function sealWords(intact: boolean): string {
  return intact ? 'seal intact' : 'seal not intact'
}

function celsius(temperatureC: number | undefined): string | undefined {
  return temperatureC === undefined ? undefined : `${temperatureC} °C`
}
