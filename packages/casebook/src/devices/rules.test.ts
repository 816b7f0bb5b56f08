import { expect, test } from 'vitest'
import type { Entry } from '../entry/entry.ts'
import { checkEntry } from '../rules/check-entry.ts'
import { derive, extend } from '../state/derive.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { testKey } from '../testing/test-key.ts'
import type { DeviceRole } from './kinds.ts'

const maker = (device: string) => entryMaker('marram-house', { device })
const [desk, phone, laboratory, server] = ['desk', 'phone', 'laboratory', 'server'].map(maker) as [
  ReturnType<typeof maker>,
  ReturnType<typeof maker>,
  ReturnType<typeof maker>,
  ReturnType<typeof maker>,
]
const joined = ({ make }: typeof desk, role: DeviceRole) =>
  make('device.joined', { name: 'A device', role, key: testKey(role).key })
const note = ({ make }: typeof desk) => make('note.written', { text: 'x', purpose: 'note' })
const revoked = ({ make }: typeof desk, device: string) => make('device.revoked', { device, reason: 'left on a train' })
const judged = (before: readonly Entry[], entry: Entry) => {
  const checked = checkEntry(derive('marram-house', before), entry)
  return checked.ok ? 'taken' : `${checked.by}: ${checked.issues.map(({ path }) => path).join()}`
}

test('[DEV4] a device joins once, and is known by name, role and key', () => {
  const first = joined(phone, 'sampler')
  const state = derive('marram-house', [first])
  expect(state.devices.get('phone')).toMatchObject({
    name: 'A device',
    role: 'sampler',
    key: testKey('sampler').key,
    joined: { id: first.id },
  })
  expect(judged([first], joined(phone, 'lead'))).toBe('record: device')
  expect(judged([first], joined(desk, 'lead'))).toBe('taken')
})

test('[DEV5] a revoked device writes nothing more, and what it wrote stays', () => {
  const before = [joined(desk, 'lead'), joined(phone, 'sampler'), note(phone), revoked(desk, 'phone')]
  expect(judged(before, note(phone))).toBe('writer: device')
  expect(judged(before, note(desk))).toBe('taken')
  const state = derive('marram-house', before)
  expect(state.brief.notes).toHaveLength(1)
  expect(state.devices.get('phone')?.revoked?.body.reason).toBe('left on a train')
})

test('[DEV5] a device is revoked once, by a lead or a server, or by whoever writes where no lead has joined', () => {
  const [lead, sampler] = [joined(desk, 'lead'), joined(phone, 'sampler')]
  const script = maker('script')
  expect(judged([lead, sampler], revoked(phone, 'desk'))).toBe('record: device')
  expect(judged([lead, sampler], revoked(script, 'phone'))).toBe('record: device')
  expect(judged([sampler], revoked(script, 'phone'))).toBe('taken')
  expect(judged([lead, sampler, joined(server, 'server')], revoked(server, 'phone'))).toBe('taken')
  expect(judged([lead, sampler, revoked(desk, 'phone')], revoked(desk, 'phone'))).toBe('record: body.device')
  expect(judged([lead], revoked(desk, 'tablet'))).toBe('record: body.device')
})

test('[DEV6] a reader writes nothing, a laboratory only what it received, a server only what it saw arrive', () => {
  expect(judged([joined(phone, 'reader')], note(phone))).toBe('writer: kind')
  expect(judged([joined(laboratory, 'laboratory')], note(laboratory))).toBe('writer: kind')
  expect(judged([joined(server, 'server')], note(server))).toBe('writer: kind')
  const contested = (at: typeof desk) => {
    const issues = [{ path: 'body', expected: 'x', received: 'y' }]
    return at.make('entry.contested', { entry: note(phone), issues, against: [] })
  }
  expect(judged([joined(desk, 'lead')], contested(desk))).toBe('writer: device')
  expect(judged([], contested(desk))).toBe('writer: device')
  expect(judged([joined(server, 'server')], contested(server))).toBe('taken')
})

test('[DEV7] joining and revoking are neither amended nor withdrawn', () => {
  const [lead, sampler] = [joined(desk, 'lead'), joined(phone, 'sampler')]
  const gone = revoked(desk, 'phone')
  const record = [lead, sampler, gone]
  for (const { id } of [sampler, gone]) {
    const withdrawn = desk.make('entry.withdrawn', {}, { entry: id, reason: 'x' })
    expect(judged(record, withdrawn)).toBe('record: corrects.entry')
  }
  const renamed = desk.make('device.revoked', gone.body, { entry: gone.id, reason: 'x' })
  expect(judged(record, renamed)).toBe('record: corrects.entry')
})

test('[REC5] devices are the same whether the record is derived whole or entry by entry', () => {
  const record = [joined(desk, 'lead'), joined(phone, 'sampler'), joined(phone, 'lead'), revoked(desk, 'phone')]
  let grown = derive('marram-house', [])
  for (const entry of record) grown = extend(grown, [entry])
  expect(grown).toEqual(derive('marram-house', record))
})
