import { verifyChain } from '@rillmark/casebook/chain/verify.ts'
import { checkSignature } from '@rillmark/casebook/devices/signature.ts'
import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { testKey } from '@rillmark/casebook/testing/test-key.ts'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { openData } from '../data/open-data.ts'
import { type OpenApp, openApp, writer } from './open-app.fixture.ts'

let served: OpenApp
beforeEach(async () => {
  served = await openApp()
})
afterEach(() => served.close())
const ask: OpenApp['ask'] = (request) => served.ask(request)
const push: OpenApp['push'] = (...given) => served.push(...given)
const pull: OpenApp['pull'] = (query) => served.pull(query)

describe('the record', () => {
  test('[SRV2] entries get their order, come back by cursor, and the chain holds', async () => {
    const { opened, note } = writer()
    const pushed = (await push([opened(), note('one'), note('two')])).json()
    expect(pushed.accepted.map(({ sequence }: { sequence: number }) => sequence)).toEqual([1, 2, 3])
    const { links, head } = await pull()
    expect(verifyChain(links, { investigation: 'marram-house', head })).toEqual({ sound: true, head })
    expect(head).toEqual(pushed.head)
    expect((await pull('?after=1&limit=1')).links).toEqual(links.slice(1, 2))
  })

  test('[SRV3] sending the same entries again gives the same answer and adds nothing', async () => {
    const { opened, note } = writer()
    const entries = [opened(), note('one')]
    // but for the clock, which goes on
    const { serverNow: _, ...first } = (await push(entries)).json()
    expect((await push(entries)).json()).toEqual({ ...first, serverNow: expect.any(String) })
    expect((await pull()).links).toHaveLength(2)
  })

  test('[SRV22] a second account is kept beside the first, signed by the server, also when it comes again or the server starts again', async () => {
    const [desk, phone] = [entryMaker('marram-house'), entryMaker('marram-house', { device: 'phone' })]
    const aCase = (of: typeof desk, seen: number) => ({
      ...of.make('case.recorded', { code: 'C1', classification: 'probable', link: 'not judged', isolate: 'not known' }),
      seen,
    })
    const [first, second] = [aCase(desk, 0), aCase(phone, 0)]
    await push([first])
    const answer = (await push([second, phone.make('note.written', { text: 'goes on', purpose: 'note' })])).json()
    expect(answer).toMatchObject({
      accepted: [{ id: second.id, sequence: 3 }, { sequence: 4 }],
      contested: [{ id: second.id, sequence: 3 }],
      refused: [],
    })
    const { links, head } = await pull()
    expect(links[2].entry).toMatchObject({
      kind: 'entry.contested',
      device: 'server',
      body: { entry: second, against: [first.id] },
    })
    expect(verifyChain(links, { investigation: 'marram-house', head, checkSignature })).toMatchObject({
      sound: true,
      signed: 2,
      unsigned: 2,
    })
    const { serverNow: _, ...again } = (await push([second])).json()
    expect(again).toEqual({
      accepted: [{ id: second.id, sequence: 3 }],
      contested: [{ id: second.id, sequence: 3 }],
      refused: [],
      head,
    })
    const beside = openData(served.folder)
    const { serverNow: _now, ...later } = { serverNow: '', ...(await beside.records.append('marram-house', [second])) }
    expect(later).toEqual(again)
    await beside.ledger.close()
    expect((await pull()).head).toEqual(head)
  })

  test('[SRV22] two processes on one folder that meet two accounts each keep every one once, under one key', async () => {
    const beside = openData(served.folder)
    const makers = Array.from({ length: 6 }, (_, n) => entryMaker('marram-house', { device: `phone-${n}` }))
    const accounts = makers.map(({ make }) => ({
      ...make('case.recorded', { code: 'C1', classification: 'probable', link: 'not judged', isolate: 'not known' }),
      seen: 0,
    }))
    const outcomes = await Promise.all(
      accounts.map((entry, n) => (n % 2 === 0 ? served.data : beside).records.append('marram-house', [entry])),
    )
    expect(outcomes.map(({ accepted }) => accepted.length)).toEqual([1, 1, 1, 1, 1, 1])
    const { links } = await pull()
    expect(verifyChain(links, { investigation: 'marram-house', checkSignature })).toMatchObject({ sound: true })
    const kinds = links.map(({ entry }: { entry: { kind: string } }) => entry.kind).toSorted()
    expect(kinds).toEqual(['case.recorded', 'device.joined', ...Array<string>(5).fill('entry.contested')])
    await beside.ledger.close()
  })

  test('[SRV23] the clock of a device is measured as its entries come, kept with each, and told back', async () => {
    const { note } = writer()
    const ahead = 86_400
    const entry = {
      ...note('by a clock a day ahead'),
      instant: new Date(Date.now() + ahead * 1000 - 5000).toISOString(),
    }
    const url = '/api/investigations/marram-house/entries'
    const sent = (entries: unknown[], deviceNow: string) =>
      ask({ method: 'POST', url, payload: { entries, deviceNow } })
    const answer = (await sent([entry], new Date(Date.now() + ahead * 1000).toISOString())).json()
    expect(Math.abs(Date.parse(answer.serverNow) - Date.now())).toBeLessThan(5000)
    const right = { ...note('by a clock that is right'), instant: new Date().toISOString(), device: 'phone' }
    await sent([right], new Date().toISOString())
    const { links } = await pull()
    expect(Math.abs(links[0].clockAheadS - ahead)).toBeLessThanOrEqual(5)
    expect(links[0].entry).toEqual(entry)
    expect('clockAheadS' in links[1]).toBe(false)
    const { state } = await served.data.records.state('marram-house')
    expect(Math.abs(Date.parse(state.brief.notes[0]?.instant ?? '') - Date.now())).toBeLessThan(15_000)
    expect((await sent([note('x')], 'yesterday')).status).toBe(400)
  })

  test('[SRV23] a clock set right before sending is found alike for every batch that says the same latest instant', async () => {
    const { note } = writer()
    const written = [-2, 20, 23].map((hours, n) => ({
      ...note(`note ${n}`),
      instant: new Date(Date.now() + hours * 3_600_000).toISOString(),
    }))
    const latest = written.at(-1)?.instant
    const sent = (entries: unknown[], deviceNow: string) =>
      ask({
        method: 'POST',
        url: '/api/investigations/marram-house/entries',
        payload: { entries, deviceNow, latest },
      })
    await sent(written.slice(0, 1), new Date().toISOString())
    await sent(written.slice(1, 2), new Date(Date.now() + 90_000).toISOString())
    await sent(written.slice(2), new Date().toISOString())
    const found = (await pull()).links.map(({ clockAheadS }: { clockAheadS?: number }) => clockAheadS)
    expect(Math.abs(found[0] - 23 * 3600)).toBeLessThanOrEqual(5)
    expect(found).toEqual([found[0], found[0], found[0]])
  })

  test('[SRV21] what a device with a key sends unsigned or altered is refused, and the rest of the batch is taken', async () => {
    const key = testKey('phone')
    const { make } = entryMaker('marram-house', { device: 'phone' })
    const joined = key.sign(make('device.joined', { name: 'Phone', role: 'sampler', key: key.key }))
    const [one, two, three] = ['one', 'two', 'three'].map((text) => make('note.written', { text, purpose: 'note' }))
    if (one === undefined || two === undefined || three === undefined) throw new RangeError('three notes are needed')
    const { accepted, refused } = (
      await push([joined, one, { ...key.sign(two), author: 'S. Other' }, key.sign(three)])
    ).json()
    expect(accepted.map(({ id }: { id: string }) => id)).toEqual([joined.id, three.id])
    expect(refused).toMatchObject([
      { id: one.id, issues: [{ path: 'signature' }] },
      { id: two.id, issues: [{ path: 'signature' }] },
    ])
  })

  test('[SRV4] a refused entry comes back with its issues; those around it are taken', async () => {
    const { opened, note, make } = writer()
    const stray = make('note.written', { text: 'x', purpose: 'note' }, { entry: crypto.randomUUID(), reason: 'r' })
    const { accepted, refused } = (await push([opened(), stray, note('one'), 7])).json()
    expect(accepted).toHaveLength(2)
    expect(refused).toMatchObject([
      { id: stray.id, issues: [{ path: 'corrects.entry' }] },
      { id: '', issues: [{ path: '' }] },
    ])
  })

  test('[SRV5] many devices at once: every acknowledged entry is in the record once, in an unbroken chain', async () => {
    const devices = Array.from({ length: 12 }, (_, n) => entryMaker('marram-house', { device: `phone-${n}` }))
    const answers = await Promise.all(
      devices.flatMap(({ make }) => {
        const entries = Array.from({ length: 5 }, (_, n) => make('note.written', { text: `${n}`, purpose: 'note' }))
        return [push(entries), push(entries)]
      }),
    )
    expect(answers.every(({ status }) => status === 200)).toBe(true)
    const { links, head } = await pull()
    expect(links).toHaveLength(60)
    expect(verifyChain(links, { investigation: 'marram-house', head })).toMatchObject({ sound: true })
  })

  test('[SRV6] what another process adds to the same folder is followed', async () => {
    const { opened, note } = writer()
    await push([opened()])
    const beside = openData(served.folder)
    await beside.records.append('marram-house', [note('from beside')])
    await beside.ledger.close()
    const { accepted } = (await push([note('after')])).json()
    expect(accepted).toMatchObject([{ sequence: 3 }])
  })

  test('[SRV7] the list tells title, head and counts, and follows the record', async () => {
    const { opened, note } = writer()
    await push([opened()])
    await ask({ url: '/api/investigations' })
    await push([note('one')])
    const { investigations } = (await ask({ url: '/api/investigations' })).json()
    expect(investigations).toMatchObject([
      { id: 'marram-house', title: 'Marram House', head: { sequence: 2 }, counts: { entries: 2, cases: 0 } },
    ])
  })
})
