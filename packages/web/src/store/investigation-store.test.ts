import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { expect, it } from 'vitest'
import { InvestigationStore } from './investigation-store.ts'
import type { InvestigationPorts } from './ports.ts'

const opened = { title: 'Marram House', setting: 'hotel', openedOn: '2026-03-14', reason: 'Two guests ill' } as const
const sync = { words: '', pending: 0, refused: [] }

function storeWith(
  keep: InvestigationPorts['keep'],
  keepAll: InvestigationPorts['keepAll'] = () => Promise.resolve(),
): InvestigationStore {
  let sequence = 0
  const ports: InvestigationPorts = {
    keep,
    keepAll: (entries) => keepAll(entries),
    nextDeviceSequence: () => Promise.resolve(++sequence),
    device: 'test',
    now: () => ({ instant: '2026-03-14T09:00:00.000Z', offset: '+00:00' }),
    newId: () => crypto.randomUUID(),
  }
  return new InvestigationStore({ id: 'marram-house', entries: [], ports, sync })
}

const open = (store: InvestigationStore) =>
  store.propose({ kind: 'investigation.opened', body: opened, author: 'R. Example' })

it('shows an entry only after it is kept', async () => {
  const order: string[] = []
  const store = storeWith(() => Promise.resolve(void order.push('kept')))
  store.subscribe(() => order.push('shown'))
  expect((await open(store)).ok).toBe(true)
  expect(order).toEqual(['kept', 'shown'])
  expect(store.snapshot()).toMatchObject({
    version: 2,
    state: { brief: { opened: { body: { title: 'Marram House' } } } },
  })
})

it('says why and changes nothing when the device cannot keep it', async () => {
  const store = storeWith(() => Promise.reject(new Error('disk full')))
  const proposed = await open(store)
  expect(proposed).toMatchObject({ ok: false, issues: [{ received: '"Error: disk full"' }] })
  expect(store.snapshot().version).toBe(1)
})

it('hands back everything that speaks against a proposal', async () => {
  const store = storeWith(() => Promise.resolve())
  const proposed = await store.propose({
    kind: 'investigation.opened',
    body: { ...opened, title: '', openedOn: 'soon' },
    author: 'R. Example',
  })
  expect(proposed.ok ? [] : proposed.issues.map((issue) => issue.path).sort()).toEqual(['body.openedOn', 'body.title'])
})

it('judges proposals one after the other and takes an arrived entry once', async () => {
  const store = storeWith(() => Promise.resolve())
  const note = (text: string) =>
    store.propose({ kind: 'note.written', body: { text, purpose: 'note' }, author: 'R. Example' })
  await Promise.all([open(store), note('first'), note('second')])
  const { entries } = store.snapshot().state.record
  expect(entries.map((entry) => entry.deviceSequence)).toEqual([1, 2, 3])
  store.receive(entries)
  expect(store.snapshot().state.record.entries).toHaveLength(3)
})

it('takes a press made twice once: the same proposal while the first is being kept is answered with the first', async () => {
  const store = storeWith(() => Promise.resolve())
  await open(store)
  const note = () =>
    store.propose({ kind: 'note.written', body: { text: 'asked', purpose: 'note' }, author: 'R. Example' })
  const [first, second] = await Promise.all([note(), note()])
  expect(second).toBe(first)
  expect(store.snapshot().state.record.entries).toHaveLength(2)
  await note()
  expect(store.snapshot().state.record.entries).toHaveLength(3)
})

const aCase = (code: string) => ({
  kind: 'case.recorded' as const,
  body: { code, classification: 'suspected', link: 'not judged', isolate: 'not known' } as const,
})
const aStay = (caseCode: string) => ({
  kind: 'exposure.recorded' as const,
  body: { caseCode, place: 'Room 2A', kind: 'stay', from: '2026-03-01', to: '2026-03-04' } as const,
})
const AUTHOR = { author: 'R. Example' }

it('judges a batch by the state it would leave, keeps it in one act and shows it once', async () => {
  const kept: string[][] = []
  const store = storeWith(
    () => Promise.resolve(),
    (entries) => Promise.resolve(void kept.push(entries.map(({ kind }) => kind))),
  )
  await open(store)
  const { version } = store.snapshot()
  const proposed = await store.proposeAll([aCase('MH-01'), aStay('MH-01')], AUTHOR)
  expect(proposed.ok).toBe(true)
  expect(kept).toEqual([['case.recorded', 'exposure.recorded']])
  expect(store.snapshot().version).toBe(version + 1)
  expect(store.snapshot().state.cases.exposures).toHaveLength(1)
})

it('takes a press made twice once for a batch too', async () => {
  const kept: number[] = []
  const store = storeWith(
    () => Promise.resolve(),
    (entries) => Promise.resolve(void kept.push(entries.length)),
  )
  await open(store)
  const both = () => store.proposeAll([aCase('MH-01'), aStay('MH-01')], AUTHOR)
  const [first, second] = await Promise.all([both(), both()])
  expect(first.ok).toBe(true)
  expect(second).toBe(first)
  expect(kept).toEqual([2])
})

it('records nothing of a batch in which one is refused, and says which', async () => {
  const store = storeWith(
    () => Promise.resolve(),
    () => Promise.reject(new Error('must not be asked')),
  )
  await open(store)
  const before = store.snapshot()
  const proposed = await store.proposeAll([aCase('MH-01'), aStay('MH-02'), aCase('MH-01')], AUTHOR)
  expect(proposed.ok ? [] : proposed.refused.map(({ at, issues }) => [at, issues[0]?.path])).toEqual([
    [1, 'body.caseCode'],
    [2, 'body.code'],
  ])
  expect(store.snapshot()).toBe(before)
  expect(store.snapshot().state.cases.cases.size).toBe(0)
})

it('records nothing of a batch the device can’t keep', async () => {
  const store = storeWith(
    () => Promise.resolve(),
    () => Promise.reject(new Error('disk full')),
  )
  await open(store)
  expect(await store.proposeAll([aCase('MH-01')], AUTHOR)).toMatchObject({
    ok: false,
    refused: [{ issues: [{ received: '"Error: disk full"' }] }],
  })
  expect(store.snapshot().state.cases.cases.size).toBe(0)
})

it('[SYN32] what is written for a refused entry bears the time of that one and takes its place', async () => {
  const kept: [unknown, unknown][] = []
  let sequence = 0
  const ports: InvestigationPorts = {
    keep: () => Promise.reject(new Error('not together')),
    keepAll: async (entries, instead) => void kept.push([entries.map(({ instant }) => instant), instead]),
    nextDeviceSequence: () => Promise.resolve(++sequence),
    device: 'test',
    now: () => ({ instant: '2026-03-14T15:00:00.000Z', offset: '+00:00' }),
    newId: () => crypto.randomUUID(),
  }
  const store = new InvestigationStore({ id: 'marram-house', entries: [], ports, sync })
  const { make } = entryMaker('marram-house', { device: 'before' })
  const refused = { ...make('investigation.opened', opened), instant: '2026-03-14T09:41:00.000Z', offset: '+01:00' }
  const proposed = await store.propose({ kind: refused.kind, body: opened, author: 'R. Example', instead: refused })
  expect(proposed).toMatchObject({ ok: true, entry: { instant: refused.instant, offset: '+01:00', device: 'test' } })
  expect(kept).toEqual([[[refused.instant], [refused.id]]])
})
