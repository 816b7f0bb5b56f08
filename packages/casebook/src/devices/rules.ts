import type { Entry } from '../entry/entry.ts'
import type { Kind } from '../entry/kinds.ts'
import { type Issue, issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import type { Rule, Rules } from '../rules/rule.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import type { DeviceRole } from './kinds.ts'

/** What a role may write; absent where it may write what people write. */
const MAY_WRITE: Readonly<Record<DeviceRole, readonly Kind[] | undefined>> = {
  lead: undefined,
  sampler: undefined,
  reader: [],
  laboratory: ['consignment.received'],
  server: ['entry.contested', 'device.revoked'],
}

/** What only a server writes: no person can put words into the record of another. */
const BY_SERVER: ReadonlySet<Kind> = new Set(['entry.contested'])

/** Whether this device may write such an entry at all, whatever it says. No account of what happened is weighed here. */
export function deviceIssues(entry: Entry, { devices }: InvestigationState): readonly Issue[] {
  const device = devices.get(entry.device)
  if (device?.revoked !== undefined)
    return [statedIssue('device', { expected: 'a device that is not revoked', received: entry.device })]
  if (BY_SERVER.has(entry.kind) && device?.role !== 'server')
    return [statedIssue('device', { expected: 'a server, signed by its key', received: entry.device })]
  const may = device === undefined ? undefined : MAY_WRITE[device.role]
  if (device === undefined || may === undefined || may.includes(entry.kind) || entry.kind === 'device.joined') return []
  const what = may.length === 0 ? 'nothing from it' : may.join(' or ')
  return [statedIssue('kind', { expected: `${what}: its role is ${device.role}`, received: entry.kind })]
}

const joinsOnce: Rule<'device.joined'> = ({ device }, { state }) =>
  state.devices.has(device)
    ? [statedIssue('device', { expected: 'a device that has not joined yet', received: device })]
    : []

const revokesJoined: Rule<'device.revoked'> = ({ body }, { state }) => {
  const device = state.devices.get(body.device)
  if (device === undefined)
    return [issue('body.device', { expected: 'a device that joined this record', received: body.device })]
  return device.revoked === undefined
    ? []
    : [statedIssue('body.device', { expected: 'a device not revoked yet', received: body.device })]
}

/** A lead, or the server for one; where no lead has joined, whoever writes the record. */
const byLead: Rule<'device.revoked'> = ({ device }, { state }) => {
  const role = state.devices.get(device)?.role
  const led = [...state.devices.values()].some((each) => each.role === 'lead' && each.revoked === undefined)
  if (role === 'lead' || role === 'server' || (role === undefined && !led)) return []
  return [statedIssue('device', { expected: 'the device of a lead', received: role ?? 'a device that has not joined' })]
}

export const devicesRules: Rules = { 'device.joined': [joinsOnce], 'device.revoked': [revokesJoined, byLead] }
