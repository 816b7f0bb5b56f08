import { expect, test } from 'vitest'
import type { BodyOf } from '../entry/kinds.ts'
import { checkEntry } from '../rules/check-entry.ts'
import { derive } from '../state/derive.ts'
import { entryMaker } from '../testing/entry-maker.ts'
import { addPart } from './add-part.ts'
import { buildSystem } from './build-system.ts'
import type { SystemChange } from './kinds.ts'
import { marramHouse } from './marram-house.fixture.ts'
import { namedParts } from './named-parts.ts'
import { removalOf } from './remove-part.ts'

const { make } = entryMaker('marram-house')
const system = buildSystem(marramHouse)
const described = make('building.described', { source: 'quick description', quick: marramHouse, system })
const swept = make('device.swept', { device: 'ice-machine', state: 'present', component: 'ice-machine-a101' })
const removal = (id: string): SystemChange[] => [...removalOf(system, { id }).changes]
const removed = make('building.edited', { changes: removal('shower-c605') })
const state = derive('marram-house', [described, swept, removed])
const pathsOf = (candidate: unknown, given = state) => {
  const checked = checkEntry(given, candidate)
  return checked.ok ? [] : checked.issues.map(({ path }) => path)
}
const edit = (changes: SystemChange[]) => make('building.edited', { changes })
const shower = { id: 'new', kind: 'shower' as const }
const pipe = { id: 'p-new', from: 'cold-c-f4', to: 'new', circuit: 'cold' as const, lengthM: 2, boreMm: 13 }

test('[BLD22] a building is described without errors; warnings let it in', () => {
  const pipes = system.pipes.filter(({ to }) => to !== 'shower-c605')
  expect(pathsOf(make('building.described', { source: 'file', system: { ...system, pipes } }))).toEqual([
    expect.stringMatching(/^body\.system\.components\.\d+$/),
  ])
  const supply = { ...system.supply, disinfectant: { kind: 'unknown' as const } }
  expect(pathsOf(make('building.described', { source: 'file', system: { ...system, supply } }))).toEqual([])
})

// name | changes | paths
test.each<[string, SystemChange[], string[]]>([
  [
    'a part and its pipe',
    [
      { change: 'put-component', component: shower },
      { change: 'put-pipe', pipe },
    ],
    [],
  ],
  ['a pipe to nowhere', [{ change: 'put-pipe', pipe }], ['body.changes, pipe p-new.to']],
  [
    'an unknown component and pipe',
    [
      { change: 'remove-component', id: 'nowhere' },
      { change: 'remove-pipe', id: 'nothing' },
    ],
    ['body.changes.0.id', 'body.changes.1.id'],
  ],
  ['a part gone already', removal('shower-c605'), ['body.changes.0.id', 'body.changes.1.id', 'body.changes.2.id']],
  ['a part with its pipes', removal('shower-c505'), []],
  [
    'a part whose pipes stay',
    [{ change: 'remove-component', id: 'shower-c505' }],
    ['body.changes, pipe hot-hot-c-f5-to-shower-c505.to', 'body.changes, pipe cold-cold-c-f5-to-shower-c505.to'],
  ],
  [
    'a part taken out and put again',
    [
      { change: 'remove-component', id: 'shower-c505' },
      { change: 'put-component', component: { id: 'shower-c505', kind: 'bath' } },
    ],
    [],
  ],
  ['the name alone', [{ change: 'set-name', name: 'Marram House, east' }], []],
])('[BLD23] an edit takes away only what is there and leaves no pipe hanging: %s', (_, changes, paths) => {
  expect(pathsOf(edit(changes))).toEqual(paths)
})

test('[BLD23] an edit in the place of another may take away the same parts; without a description there is nothing to edit', () => {
  const again = make(
    'building.edited',
    { changes: removal('shower-c605'), why: 'walled up' },
    { entry: removed.id, reason: 'say why' },
  )
  expect(pathsOf(again)).toEqual([])
  expect(pathsOf(edit([{ change: 'set-name', name: 'x' }]), derive('marram-house', []))).toEqual(['body'])
})

test('[BLD24] a part other entries name stays, in an edit and in a new description', () => {
  expect([...namedParts(state)]).toEqual([['ice-machine-a101', [{ entry: swept.id, title: 'Device looked for' }]]])
  expect(pathsOf(edit(removal('ice-machine-a101')))).toEqual(['body.changes'])
  const smaller = buildSystem({ ...marramHouse, overrides: [] })
  expect(pathsOf(make('building.described', { source: 'file', system: smaller }))).toEqual(['body.system.components'])
  const withdrawn = make('entry.withdrawn', {}, { entry: swept.id, reason: 'another machine' })
  expect(
    pathsOf(edit(removal('ice-machine-a101')), derive('marram-house', [described, swept, removed, withdrawn])),
  ).toEqual([])
})

// body | paths
test.each<[BodyOf<'device.swept'>, string[]]>([
  [{ device: 'spa-pool', state: 'absent' }, []],
  [{ device: 'other: misting fan', state: 'present', place: 'terrace' }, []],
  [{ device: 'other:', state: 'present' }, ['body.device']],
  [{ device: 'teapot', state: 'absent' }, ['body.device']],
  [{ device: 'spa-pool', state: 'present', component: 'nowhere' }, ['body.component']],
])(
  '[BLD25] the sweep answers for a device of the list or a named other, at a described component: %o',
  (body, paths) => {
    expect(pathsOf(make('device.swept', body))).toEqual(paths)
  },
)

test('[BLD25] an amended answer is about the same device', () => {
  const reason = { entry: swept.id, reason: 'read again' }
  expect(pathsOf(make('device.swept', { device: 'spa-pool', state: 'absent' }, reason))).toEqual(['body.device'])
  expect(pathsOf(make('device.swept', { device: 'ice-machine', state: 'absent' }, reason))).toEqual([])
})

// body | paths
test.each<[Partial<BodyOf<'history.recorded'>>, string[]]>([
  [{}, []],
  [{ until: '2026-01-18' }, ['body.until']],
  [{ on: '2026-03-09' }, ['body.on']],
  [{ components: ['return-pump', 'return-pump', 'nowhere'] }, ['body.components', 'body.components']],
])('[BLD26] what changed has happened, ends no earlier than it began, at described components: %o', (given, paths) => {
  const body = { on: '2026-01-19', what: 'works' as const, components: [], text: 'pump replaced', ...given }
  expect(pathsOf(make('history.recorded', body))).toEqual(paths)
})

test('[BLD23] a part added by its place is an edit the record takes', () => {
  const place = { kind: 'shower' as const, floor: 2, riser: 'A', known: 'seen' as const }
  const { changes } = addPart(system, { ...place, feeds: { hot: 'hot-a-f2', cold: 'cold-a-f2' } })
  expect(pathsOf(edit(changes))).toEqual([])
})
