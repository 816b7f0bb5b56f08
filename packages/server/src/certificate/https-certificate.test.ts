import { mkdtempSync, rmSync } from 'node:fs'
import { createServer } from 'node:http'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { HttpsCertificate } from './https-certificate.ts'

const HOUR_MS = 3_600_000
const DAY_MS = 24 * HOUR_MS

let folder: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'rillmark-https-'))
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

test('[ACC15] while a server runs its authority stays, whatever addresses its machine gets; each change is told, once', async () => {
  const said: unknown[] = []
  const log = (told: unknown) => said.push(told)
  const certificate = await HttpsCertificate.of(folder, { host: '127.0.0.1', newAuthority: false, log })
  const server = createServer()
  const { authority } = certificate.kept.fingerprints
  const own = { names: ['localhost'], addresses: ['127.0.0.1', '::1'] }
  const nowMs = Date.now()
  const at = async (hours: number, more: readonly string[]) => {
    await certificate.renew(server, {
      nowMs: nowMs + hours * HOUR_MS,
      own: { ...own, addresses: [...own.addresses, ...more] },
    })
    expect(certificate.kept.fingerprints.authority).toBe(authority)
    return said.splice(0)
  }
  expect(await at(1, [])).toEqual([])
  expect(await at(2, ['10.1.2.3'])).toEqual([expect.stringContaining('The certificate was made anew. SHA-256: ')])
  for (const day of [1, 2, 3]) {
    const address = `198.51.100.${day}`
    expect(await at(24 * day, ['10.1.2.3', address])).toEqual([expect.stringContaining(`vouch for ${address}`)])
    expect(await at(24 * day + 1, ['10.1.2.3', address])).toEqual([])
  }
  expect(await at(24 * 1790, ['10.1.2.3'])).toEqual([
    expect.stringContaining('The certificate was made anew'),
    expect.stringContaining('The authority ends on'),
  ])
  await certificate.renew(server, { nowMs: nowMs + 1900 * DAY_MS, own })
  expect(said[0]).toContain(
    `The authority had ended. Have each device trust the new one (docs/network.md). SHA-256: ${certificate.kept.fingerprints.authority}`,
  )
  expect(certificate.kept.fingerprints.authority).not.toBe(authority)
})
