import { beforeEach, expect, test } from 'vitest'
import { testKey } from '../testing/test-key.ts'
import { custodyView } from './custody-view.ts'
import { Bench, COURIER, LABORATORY, SAMPLER } from './custody.fixture.ts'

const PICTURE = 'ab'.repeat(32)
let bench = new Bench()
const over = { consignment: 'Box 1', from: SAMPLER, to: COURIER, sealIntact: true }
const boxNow = () => custodyView(bench.state, 0).consignments[0]
const joined = (device: string) =>
  bench.make('device.joined', { name: device, role: 'sampler', key: testKey(device).key }, { device })
const lastOf = () => boxNow()?.chain.findLast(({ what }) => what === 'handed over')

beforeEach(() => {
  bench = new Bench()
  bench.given(joined('phone-2'))
  bench.collect('L1')
  bench.box('Box 1', 'L1')
})

test('[CUS15] a signature on the glass or on paper is kept by the hash of its picture and told in the chain', () => {
  bench.write('consignment.handed-over', { ...over, signedBy: { way: 'drawn', sha256: PICTURE } })
  expect(lastOf()).toMatchObject({ signed: 'signed on the glass', picture: PICTURE })
  const back = { ...over, from: COURIER, to: LABORATORY }
  bench.write('consignment.handed-over', { ...back, signedBy: { way: 'paper', sha256: PICTURE } })
  expect(lastOf()).toMatchObject({ signed: 'signed on paper', picture: PICTURE })
})

test('[CUS15] a hand-over without any signature says so', () => {
  bench.write('consignment.handed-over', over)
  expect(lastOf()?.signed).toBe('no signature')
  expect(boxNow()?.holder).toEqual(COURIER)
})

test('[CUS15] one the receiver accepts on their own device is half until then: the giver holds it and nobody hands it on', () => {
  const half = bench.write('consignment.handed-over', { ...over, signedBy: { way: 'device', device: 'phone-2' } })
  expect(boxNow()).toMatchObject({
    holder: { role: 'opened it' },
    stage: 'being packed',
    waiting: { id: half.id, to: COURIER, device: 'phone-2' },
  })
  expect(lastOf()?.signed).toBe('by half: not yet accepted by the receiver')
  expect(bench.pathsOf('consignment.handed-over', { ...over, from: COURIER, to: LABORATORY })).toContain(
    'body.consignment',
  )
  const accepted = { consignment: 'Box 1', handOver: half.id, by: COURIER, sealIntact: true, temperatureC: 5 }
  bench.write('consignment.accepted', accepted, { device: 'phone-2' })
  expect(boxNow()).toMatchObject({ holder: COURIER, stage: 'on its way', waiting: undefined })
  expect(lastOf()?.signed).toBe("accepted on the receiver's device")
  expect(boxNow()?.chain.find(({ what }) => what === 'accepted on their own device')).toMatchObject({
    to: COURIER,
    temperatureC: 5,
  })
})

test('[CUS15] a half hand-over can be withdrawn, and the laboratory can take the box in all the same', () => {
  const half = bench.write('consignment.handed-over', { ...over, signedBy: { way: 'device', device: 'phone-2' } })
  const samples = [{ label: 'L1', condition: 'accepted' as const }]
  const receipt = { consignment: 'Box 1', laboratory: 'Q', receivedBy: LABORATORY, sealIntact: true, samples }
  expect(bench.pathsOf('consignment.received', receipt)).toEqual([])
  bench.write('entry.withdrawn', {}, { corrects: { entry: half.id, reason: 'the courier did not come' } })
  expect(boxNow()?.waiting).toBeUndefined()
})

test('[CUS16] the acceptance comes from the device that was named, by the receiver named, once', () => {
  const half = bench.write('consignment.handed-over', { ...over, signedBy: { way: 'device', device: 'phone-2' } })
  const accepted = { consignment: 'Box 1', handOver: half.id, by: COURIER, sealIntact: true }
  expect(bench.pathsOf('consignment.accepted', accepted, { device: 'desk-1' })).toEqual(['device'])
  expect(bench.pathsOf('consignment.accepted', { ...accepted, by: SAMPLER }, { device: 'phone-2' })).toEqual([
    'body.by.name',
  ])
  bench.write('consignment.accepted', accepted, { device: 'phone-2' })
  expect(bench.pathsOf('consignment.accepted', accepted, { device: 'phone-2' })).toEqual(['body.handOver'])
})

test('[CUS16] a device that has not joined accepts nothing', () => {
  const half = bench.write('consignment.handed-over', { ...over, signedBy: { way: 'device', device: 'phone-3' } })
  const accepted = { consignment: 'Box 1', handOver: half.id, by: COURIER, sealIntact: true }
  expect(bench.pathsOf('consignment.accepted', accepted, { device: 'phone-3' })).toEqual(['device'])
  bench.given(joined('phone-3'))
  expect(bench.pathsOf('consignment.accepted', accepted, { device: 'phone-3' })).toEqual([])
})

test('[CUS16] no device accepts what it handed over itself', () => {
  const half = bench.write('consignment.handed-over', { ...over, signedBy: { way: 'device', device: 'desk-1' } })
  const accepted = { consignment: 'Box 1', handOver: half.id, by: COURIER, sealIntact: true }
  expect(bench.pathsOf('consignment.accepted', accepted, { device: 'desk-1' })).toEqual(['device'])
})

test('[CUS8] [CUS23] a clock that is behind keeps nobody from accepting; that the times disagree is told', () => {
  const half = bench.write('consignment.handed-over', { ...over, signedBy: { way: 'device', device: 'phone-2' } })
  const accepted = { consignment: 'Box 1', handOver: half.id, by: COURIER, sealIntact: true }
  bench.write('consignment.accepted', accepted, { device: 'phone-2' })
  expect(boxNow()?.doubts).toEqual(['the hands it went through are not in the order of the times written'])
})

test('[CUS23] what does not fit is told: a sample packed after the seal by the times written, a seal read otherwise', () => {
  bench.collect('L2')
  const seal = bench.make('consignment.sealed', { consignment: 'Box 1', seal: '0451' })
  const packed = bench.make('sample.packed', { consignment: 'Box 1', label: 'L2' })
  // both were made without a network; the packing reached the record first
  bench.given({ ...packed, instant: '2026-03-02T08:05:00.000Z' }, { ...seal, instant: '2026-03-02T08:03:00.000Z' })
  expect(boxNow()?.doubts).toEqual(['L2 packed after seal 0451 was put on, by the times written'])
  const samples = ['L1', 'L2'].map((label) => ({ label, condition: 'accepted' as const }))
  bench.write('consignment.received', {
    consignment: 'Box 1',
    laboratory: 'Q',
    receivedBy: LABORATORY,
    sealIntact: true,
    sealRead: '0461',
    samples,
  })
  expect(boxNow()?.doubts).toContain('the laboratory read seal 0461, the record says 0451')
})
