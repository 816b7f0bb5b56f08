import { isServersName } from '@rillmark/casebook/devices/server-names.ts'
import { type Issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import type { EnrolledDevice } from './devices.ts'
import { isAtLeast } from './roles.ts'

/** The register of devices, by id. */
export type DeviceOf = (id: string) => EnrolledDevice | undefined

/**
 * Why an entry from outside is not taken, whatever it says; anything that is no entry at all is left to be refused as such. Only the server
 * itself writes under its own names and joins as a server. Where devices have to come in, an entry is also signed with the key its device
 * enrolled with. Who carries it does not matter: a browser that lost its store comes back as another device, with what it wrote as the one before.
 *
 * @param deviceOf where devices have to come in
 */
export function entryObjections(entry: unknown, deviceOf: DeviceOf | undefined): readonly Issue[] {
  if (!isObject(entry)) return []
  const { device, kind, body } = entry
  if (typeof device === 'string' && isServersName(device))
    return [statedIssue('device', { expected: 'a name that is not the server’s own', received: device })]
  if (kind === 'device.joined' && isObject(body) && body['role'] === 'server')
    return [statedIssue('body.role', { expected: 'lead, sampler or reader', received: 'server' })]
  return deviceOf === undefined ? [] : handObjections(entry, deviceOf)
}

/** Whether the signature fits the key is the record's own check. */
function handObjections({ device, signature, kind, body }: Fields, deviceOf: DeviceOf): Issue[] {
  const enrolled = typeof device === 'string' ? deviceOf(device) : undefined
  if (enrolled === undefined || enrolled.revoked !== undefined) {
    const expected = 'a device that was let in here and is not revoked'
    return [
      statedIssue('device', { expected, received: enrolled === undefined ? shown(device) : `${enrolled.id}, revoked` }),
    ]
  }
  const { id, role, key, thumbprint } = enrolled
  if (!isAtLeast(role, 'sampler'))
    return [statedIssue('device', { expected: 'the device of a sampler or lead', received: `${id}, of a ${role}` })]
  const signedBy = isObject(signature) ? signature['key'] : undefined
  if (signedBy !== thumbprint)
    return [statedIssue('signature', { expected: `signed with the key of ${id}`, received: shown(signedBy) })]
  if (kind !== 'device.joined' || !isObject(body)) return []
  return [
    ...(body['role'] === role ? [] : [statedIssue('body.role', { expected: role, received: shown(body['role']) })]),
    ...(isKey(body['key'], key)
      ? []
      : [statedIssue('body.key', { expected: 'the key it enrolled with', received: 'another' })]),
  ]
}

function isKey(given: unknown, { x, y }: EnrolledDevice['key']): boolean {
  return isObject(given) && given['x'] === x && given['y'] === y
}

type Fields = Readonly<Record<string, unknown>>

function isObject(value: unknown): value is Fields {
  return typeof value === 'object' && value !== null
}

const LONGEST_SHOWN = 80

function shown(value: unknown): string | undefined {
  return typeof value === 'string' ? value.slice(0, LONGEST_SHOWN) : value === undefined ? undefined : typeof value
}
