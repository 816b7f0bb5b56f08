import { createPrivateKey, X509Certificate } from 'node:crypto'
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { createServer, request } from 'node:https'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { X509Certificate as Certificate } from '@peculiar/x509'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { certificateNotices } from './certificate-notices.ts'
import { issueServer, keysOf, privatePem } from './issue-certificate.ts'
import { type KeptCertificate, keptCertificate } from './kept-certificate.ts'
import { type MachineNames, machineNames } from './machine-names.ts'

const DAY_MS = 86_400_000
const NOW_MS = Date.now()
const own: MachineNames = machineNames({
  hostname: 'Field-Desk',
  interfaces: { wlan0: [{ address: '192.168.4.7', internal: false }] },
})

let folder: string
beforeEach(() => {
  folder = join(mkdtempSync(join(tmpdir(), 'rillmark-certificate-')), 'certificate')
})
afterEach(() => rmSync(join(folder, '..'), { recursive: true, force: true }))

const kept = (more: Partial<{ own: MachineNames; nowMs: number; newAuthority: boolean }> = {}) =>
  keptCertificate(folder, { own, nowMs: NOW_MS, ...more })

/** What a client that trusts the authority says to a server with this certificate, asked for under a name. */
async function greeted({ key, cert }: { key: string; cert: string }, { ca, name }: { ca: Uint8Array; name: string }) {
  const server = createServer({ key, cert }, (_, response) => response.end('hello'))
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', done))
  const { port } = server.address() as AddressInfo
  const pem = new X509Certificate(ca).toString()
  try {
    return await new Promise<string>((done) => {
      const asking = request(
        { host: '127.0.0.1', port, servername: name, ca: pem, headers: { host: name } },
        (answer) => {
          answer.resume()
          done('trusted')
        },
      )
      asking.on('error', (error: NodeJS.ErrnoException) => done(`${error.code}: ${error.message}`))
      asking.end()
    })
  } finally {
    server.close()
  }
}

describe('the certificate', () => {
  test('[ACC14] it covers the machine’s names and addresses, with keys on P-256 that only the owner may read', async () => {
    const { cert, authority, fingerprints, isNewAuthority } = await kept()
    const server = new X509Certificate(cert)
    expect(isNewAuthority).toBe(true)
    for (const name of ['localhost', 'field-desk', 'field-desk.local']) expect(server.checkHost(name)).toBe(name)
    for (const address of ['127.0.0.1', '::1', '192.168.4.7']) expect(server.checkIP(address)).toBe(address)
    expect(server.checkHost('other.example')).toBeUndefined()
    expect(server.publicKey.asymmetricKeyDetails).toEqual({ namedCurve: 'prime256v1' })
    expect(fingerprints.server).toBe(server.fingerprint256)
    expect(fingerprints.authority).toBe(new X509Certificate(authority).fingerprint256)
    expect(fingerprints.server).toMatch(/^(?:[0-9A-F]{2}:){31}[0-9A-F]{2}$/)
    expect(statSync(folder).mode & 0o777).toBe(0o700)
    expect(readdirSync(folder).sort()).toEqual(['authority.crt', 'authority.pem', 'server.pem'])
    for (const name of readdirSync(folder)) expect(statSync(join(folder, name)).mode & 0o777).toBe(0o600)
  })

  test('[ACC14] who trusts the authority trusts the server, under each of its names', async () => {
    const made = await kept()
    for (const name of ['localhost', 'field-desk.local'])
      expect(await greeted(made, { ca: made.authority, name })).toBe('trusted')
    expect(await greeted(made, { ca: made.authority, name: 'other.example' })).toContain('ERR_TLS_CERT_ALTNAME_INVALID')
  })

  test('[ACC14] the authority can vouch for no name but local ones, whoever holds its key', async () => {
    const made = await kept()
    const authority = await authorityIn(folder)
    const forged = async (names: MachineNames) => {
      const { certificate, keys } = await issueServer(names, { authority, nowMs: NOW_MS })
      return { key: privatePem(keys), cert: certificate.toString('pem') }
    }
    const bank = await forged({ names: ['bank.example'], addresses: [] })
    const elsewhere = await forged({ names: ['localhost'], addresses: ['203.0.113.9'] })
    const sound = await forged({ names: ['localhost'], addresses: ['10.1.2.3'] })
    // OpenSSL, of the runtime, judges by RFC 5280
    expect(await greeted(bank, { ca: made.authority, name: 'bank.example' })).toContain('permitted subtree violation')
    expect(await greeted(elsewhere, { ca: made.authority, name: 'localhost' })).toContain('permitted subtree violation')
    expect(await greeted(sound, { ca: made.authority, name: 'localhost' })).toBe('trusted')
  })

  test('[ACC15] it stays as it is while it lasts and fits, and is renewed before its end by the same authority', async () => {
    const first = await kept()
    expect(await kept({ nowMs: NOW_MS + 330 * DAY_MS })).toMatchObject(same(first, { server: true, authority: true }))
    const later = await kept({ nowMs: NOW_MS + 340 * DAY_MS })
    expect(later).toMatchObject(same(first, { authority: true }))
    expect(later.fingerprints.server).not.toBe(first.fingerprints.server)
    expect(later.isNewAuthority).toBe(false)
    const nearEnd = await kept({ nowMs: NOW_MS + (5 * 365 - 1) * DAY_MS })
    expect(nearEnd).toMatchObject({ isNewAuthority: false, ...same(first, { authority: true }) })
    const years = await kept({ nowMs: NOW_MS + 5 * 365 * DAY_MS })
    expect(years.isNewAuthority).toBe(true)
  })

  test('[ACC15] another address of a local network needs no new trust', async () => {
    const first = await kept()
    const moved = await kept({ own: { names: own.names, addresses: ['127.0.0.1', '::1', '10.0.0.5', 'fd12::5'] } })
    expect(moved).toMatchObject({ leftOut: [], ...same(first, { authority: true }) })
    expect(new X509Certificate(moved.cert).checkIP('10.0.0.5')).toBe('10.0.0.5')
  })

  test('[ACC15] an authority that devices trust is not replaced by itself: what it may not vouch for is left out, and told', async () => {
    const first = await kept()
    const named = {
      names: [...own.names, 'desk.agency.example'],
      addresses: [...own.addresses, '198.51.100.4', '2001:db8::5'],
    }
    const still = await kept({ own: named })
    expect(still).toMatchObject({ isNewAuthority: false, ...same(first, { server: true, authority: true }) })
    expect(still.leftOut).toEqual(['desk.agency.example', '198.51.100.4', '2001:db8::5'])
    expect(certificateNotices(still, NOW_MS)).toEqual([expect.stringContaining('desk.agency.example, 198.51.100.4')])
    const asked = await kept({ own: named, newAuthority: true })
    expect(asked).toMatchObject({ isNewAuthority: true, leftOut: [] })
    expect(await greeted(asked, { ca: asked.authority, name: 'desk.agency.example' })).toBe('trusted')
    expect(certificateNotices(asked, NOW_MS)).toEqual([])
    expect(certificateNotices(asked, NOW_MS + 1800 * DAY_MS)).toEqual([expect.stringContaining('ends on')])
  })

  test('[ACC15] valid from before it was made: a device whose clock is three weeks behind still gets in', async () => {
    const { validFromDate, validToDate } = new X509Certificate((await kept()).cert)
    expect(validFromDate.getTime()).toBeLessThan(NOW_MS - 21 * DAY_MS)
    expect(validToDate.getTime() - validFromDate.getTime()).toBeLessThanOrEqual(398 * DAY_MS)
  })

  test.each(['authority.pem', 'server.pem'])(
    '[ACC15] a damaged %s is made anew, and what is served fits together',
    async (name) => {
      await kept()
      writeFileSync(join(folder, name), 'damaged')
      const mended = await kept()
      expect(mended.isNewAuthority).toBe(name.startsWith('authority'))
      expect(await greeted(mended, { ca: mended.authority, name: 'localhost' })).toBe('trusted')
    },
  )

  test('[ACC15] keys kept apart from their certificates, as at first, still count', async () => {
    const first = await kept()
    for (const name of ['authority', 'server']) {
      const [key = '', certificate = ''] = readFileSync(join(folder, `${name}.pem`), 'utf8').split(/(?=-----BEGIN C)/)
      writeFileSync(join(folder, `${name}.key`), key)
      writeFileSync(join(folder, `${name}.crt`), certificate)
      rmSync(join(folder, `${name}.pem`))
    }
    expect(await kept()).toMatchObject(same(first, { server: true, authority: true }))
  })

  test('[ACC15] the authority’s certificate lies there to be handed on, and is put back', async () => {
    const { fingerprints } = await kept()
    const path = join(folder, 'authority.crt')
    const handed = () => new X509Certificate(readFileSync(path)).fingerprint256
    expect(handed()).toBe(fingerprints.authority)
    expect(readFileSync(path, 'utf8')).not.toContain('PRIVATE')
    writeFileSync(path, 'damaged')
    expect((await kept()).isNewAuthority).toBe(false)
    expect(handed()).toBe(fingerprints.authority)
  })
})

function same({ fingerprints }: KeptCertificate, which: { server?: boolean; authority?: boolean }) {
  return {
    fingerprints: {
      ...(which.server === true ? { server: fingerprints.server } : {}),
      ...(which.authority === true ? { authority: fingerprints.authority } : {}),
    },
  }
}

async function authorityIn(at: string) {
  const text = readFileSync(join(at, 'authority.pem'), 'utf8')
  return {
    certificate: new Certificate(readFileSync(join(at, 'authority.crt'), 'utf8')),
    keys: await keysOf(createPrivateKey(text)),
  }
}
