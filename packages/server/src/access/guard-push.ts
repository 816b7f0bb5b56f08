import { type Issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import type { FastifyInstance } from 'fastify'
import { Problem } from '../api/problems.ts'
import { callerOf } from './caller.ts'
import type { EnrolledDevice } from './devices.ts'

/**
 * Holds a device to its own hand: what it sends is written by it, signed with its key, and it joins a record as what it was enrolled as. So
 * a session that was stolen writes nothing, and nobody writes for others.
 */
export function guardPush(app: FastifyInstance): void {
  app.addHook('preHandler', async (request) => {
    const { device } = callerOf(request)
    if (device === undefined || request.method !== 'POST' || request.routeOptions.url !== PUSH) return
    const { entries } = request.body as { entries: readonly unknown[] }
    const issues = entries.flatMap((entry, at) =>
      foreign(entry, device).map((each) => ({ ...each, path: `entries[${at}].${each.path}` })),
    )
    if (issues.length > 0) throw new Problem(403, issues)
  })
}

const PUSH = '/api/investigations/:id/entries'

/** What of an entry is not this device's. Anything that is no entry at all is left to be refused as such. */
function foreign(entry: unknown, { id, role, key, thumbprint }: EnrolledDevice): Issue[] {
  if (!isObject(entry)) return []
  const { device, signature, kind, body } = entry
  if (device !== id) return [statedIssue('device', { expected: id, received: shown(device) })]
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

function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null
}

const LONGEST_SHOWN = 80

function shown(value: unknown): string | undefined {
  return typeof value === 'string' ? value.slice(0, LONGEST_SHOWN) : value === undefined ? undefined : typeof value
}
