import type { Link } from '@rillmark/casebook/chain/link.ts'
import { deviceIssues, devicesRules } from '@rillmark/casebook/devices/rules.ts'
import { signatureFault } from '@rillmark/casebook/devices/signature-fault.ts'
import { devicesAppliers, emptyDevices } from '@rillmark/casebook/devices/state.ts'
import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { parseEntry } from '@rillmark/casebook/entry/parse-entry.ts'
import type { RuleContext } from '@rillmark/casebook/rules/rule.ts'
import { effective } from '@rillmark/casebook/state/effective.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import { type Issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import type { SignatureJob } from './signature-jobs.ts'
import { type Finding, foundIn } from './verdict.ts'

export interface DevicesWalked {
  readonly findings: Finding[]
  /** signatures still to be checked against their text: the costly part */
  readonly jobs: SignatureJob[]
  readonly cautions: string[]
  readonly counts: {
    readonly signed: number
    readonly unsigned: number
    readonly devices: number
    readonly revoked: number
  }
}

interface Walk {
  readonly state: InvestigationState
  readonly findings: Finding[]
  readonly jobs: SignatureJob[]
  readonly lastNumbers: Map<string, number>
  readonly gaps: string[]
  signed: number
  unsigned: number
}

/**
 * Walks a record whose chain holds and asks of every entry whether its device may have written it there: joined once by its own key,
 * signing since, not revoked, in its role, not after what it claims to have seen.
 */
export function walkDevices(links: readonly Link[], investigation: string): DevicesWalked {
  // the rules of devices look at nothing else of the state
  const state = { investigation, devices: emptyDevices() } as InvestigationState
  const walk: Walk = { state, findings: [], jobs: [], lastNumbers: new Map(), gaps: [], signed: 0, unsigned: 0 }
  for (const link of links) step(link, walk)
  const { findings, jobs, gaps, signed, unsigned } = walk
  const devices = [...state.devices.values()]
  const revoked = devices.filter((device) => device.revoked !== undefined).length
  return { findings, jobs, cautions: gapCaution(gaps), counts: { signed, unsigned, devices: devices.length, revoked } }
}

function step({ entry, sequence }: Link, walk: Walk): void {
  const where = `entry ${sequence}`
  const placed = (issues: readonly Issue[]): Issue[] =>
    issues.map(({ path, ...rest }) => ({ path: `${where} ${path}`.trim(), ...rest }))
  walk.findings.push(
    ...foundIn('signatures', signatureIssues(entry, { sequence, where, walk })),
    ...foundIn('devices', [
      ...seenIssues(entry, { sequence, where }),
      ...placed(ruleIssues(entry, walk.state)),
      ...insideIssues(entry, { sequence, where, walk }),
    ]),
  )
  if (entry.signature === undefined) walk.unsigned += 1
  else walk.signed += 1
  countNumber(entry, { where, walk })
  // the account a contest carries is in the record, and so is its number
  if (entry.kind === 'entry.contested') countNumber(entry.body.entry, { where, walk })
  if (entry.kind === 'device.joined') devicesAppliers['device.joined']?.(walk.state.devices, effective(entry))
  if (entry.kind === 'device.revoked') devicesAppliers['device.revoked']?.(walk.state.devices, effective(entry))
}

/** Puts down what a device numbered, and that numbers before it never came. */
function countNumber(
  { device, deviceSequence }: Pick<Entry, 'device' | 'deviceSequence'>,
  { where, walk }: { where: string; walk: Walk },
): void {
  const last = walk.lastNumbers.get(device) ?? 0
  if (deviceSequence > last + 1) walk.gaps.push(`${device} before its ${deviceSequence} (${where})`)
  walk.lastNumbers.set(device, Math.max(last, deviceSequence))
}

interface At {
  readonly sequence: number
  readonly where: string
}

/** Everything about a signature but the costly check itself, which is put down as a job. */
function signatureIssues(entry: Entry, { sequence, where, walk }: At & { walk: Walk }): Issue[] {
  const fault = signatureFault(entry, {
    joinedKey: walk.state.devices.get(entry.device)?.key,
    checkSignature: (signed) => walk.jobs.push({ sequence, device: entry.device, signed }) > 0,
  })
  return fault === undefined ? [] : [statedIssue(where, { expected: 'a signature that holds', received: fault })]
}

function seenIssues({ seen }: Entry, { sequence, where }: At): Issue[] {
  if (seen === undefined || seen < sequence) return []
  const received = `${seen} entries seen by its device: some before it are gone or were moved`
  return [statedIssue(where, { expected: `at most the ${sequence - 1} entries before it`, received })]
}

function ruleIssues(entry: Entry, state: InvestigationState): readonly Issue[] {
  const allowed = deviceIssues(entry, state)
  if (allowed.length > 0) return allowed
  const context = { state } as RuleContext
  if (entry.kind === 'device.joined') return devicesRules[entry.kind]?.flatMap((rule) => rule(entry, context)) ?? []
  if (entry.kind === 'device.revoked') return devicesRules[entry.kind]?.flatMap((rule) => rule(entry, context)) ?? []
  return []
}

/** A contested entry is kept inside another: it must be of this investigation and signed by the device it names. */
function insideIssues(entry: Entry, { sequence, where, walk }: At & { walk: Walk }): Issue[] {
  if (entry.kind !== 'entry.contested') return []
  const at = `${where} body.entry`
  const inside = parseEntry(entry.body.entry)
  if (!inside.ok) return [statedIssue(at, { expected: 'a whole entry', received: 'something else' })]
  const { investigation } = walk.state
  // what was signed is the entry as it was written
  const original = entry.body.entry as Entry
  if (original.investigation !== investigation)
    return [statedIssue(at, { expected: `an entry of ${investigation}`, received: original.investigation })]
  return signatureIssues(original, { sequence, where: at, walk })
}

const GAPS_NAMED = 3

function gapCaution(gaps: readonly string[]): string[] {
  if (gaps.length === 0) return []
  const more = gaps.length > GAPS_NAMED ? ` and ${gaps.length - GAPS_NAMED} more` : ''
  return [
    `Device numbers are missing: ${gaps.slice(0, GAPS_NAMED).join(', ')}${more}. An entry refused and let go leaves such a gap; so would one taken out.`,
  ]
}
