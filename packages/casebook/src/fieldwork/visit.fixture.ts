import { buildSystem } from '../building/build-system.ts'
import { marramHouse } from '../building/marram-house.fixture.ts'
import type { DisinfectantKind } from '../building/water-system.ts'
import type { BodyOf, Kind } from '../entry/kinds.ts'
import { makeLabel } from '../label/label.ts'
import type { PlannedSample, Stop } from '../plan/plan-file.ts'
import { checkEntry } from '../rules/check-entry.ts'
import { derive, extend } from '../state/derive.ts'
import { entryMaker } from '../testing/entry-maker.ts'

/** Labels of the fixture, MRH-0001 and on. */
export const LABELS = [1, 2, 3, 4, 5, 6].map((number) => makeLabel({ prefix: 'MRH', number }).id)
const [swab = '', bulk = '', drain = '', blank = ''] = LABELS

export const SHOWER = { round: 'R1', stop: 'S1' } as const
export const HEATER = { round: 'R1', stop: 'S2' } as const

const stop = (of: { id: string; title: string; component?: string; samples: PlannedSample[] }): Stop => ({
  ...of,
  reasons: [{ obligation: 'asked for', text: 'a fixture', evidence: [] }],
  rank: 1,
  minutes: 12,
})

/** Three stops of the invented Marram House: a shower with swab and litre, a heater, a blank. */
export const STOPS: Stop[] = [
  stop({
    id: 'S1',
    title: 'Room 304, shower',
    component: 'shower-c304',
    samples: [
      { sampleKind: 'first-flush-swab', procedure: 'shower', circuit: 'hot', label: swab },
      { sampleKind: 'bulk-hot', procedure: 'shower', circuit: 'hot', volumeMl: 1000, label: bulk },
      { sampleKind: 'readings-only', procedure: 'cold-readings', circuit: 'cold' },
    ],
  }),
  stop({
    id: 'S2',
    title: 'Heater 1',
    component: 'heater-1',
    samples: [
      { sampleKind: 'heater-drain', procedure: 'storage-heater-drain', circuit: 'hot', volumeMl: 1000, label: drain },
    ],
  }),
  stop({
    id: 'S3',
    title: 'Field blank',
    samples: [{ sampleKind: 'field-blank', procedure: 'field-blank', label: blank }],
  }),
]

export const THERMOMETER: BodyOf<'instrument.registered'> = {
  code: 'T1',
  kind: 'thermometer',
  measures: ['hot-temperature', 'cold-temperature'],
  rangeMin: -20,
  rangeMax: 110,
  resolution: 0.1,
  unit: 'Cel',
  calibrationDue: '2026-10-14',
}
export const FINE_KIT: BodyOf<'instrument.registered'> = {
  code: 'K1',
  kind: 'chlorine kit',
  measures: ['free-chlorine', 'total-chlorine'],
  rangeMin: 0,
  rangeMax: 3.5,
  resolution: 0.1,
  unit: 'mg/L',
}
export const POOL_KIT: BodyOf<'instrument.registered'> = {
  ...FINE_KIT,
  code: 'K2',
  rangeMin: 0.5,
  rangeMax: 10,
  resolution: 0.5,
}

/** A record with the building described and the plan adopted, on which fieldwork is tried. */
export function fieldDesk(disinfectant: DisinfectantKind = 'chloramine') {
  const maker = entryMaker('marram-house')
  const system = buildSystem(marramHouse)
  const supply = { ...system.supply, disinfectant: { kind: disinfectant, residualMgPerL: 1.9 } }
  let state = derive('marram-house', [
    maker.make('building.described', { source: 'file', system: { ...system, supply } }),
    maker.make('plan.adopted', {
      round: 'R1',
      purpose: 'initial',
      teams: [],
      plan: {
        format: 'rillmark/plan@1',
        system: 'Marram House',
        budget: { samples: 4 },
        stops: STOPS,
        leftOut: [],
        scenarios: [],
        couldHide: [],
        totals: { samples: 4, outlets: 1, minutes: 36, hoursPerTeam: 0.6 },
      },
    }),
  ])
  const others = new Map<string, ReturnType<typeof entryMaker>>()
  /** Writes as another device, its clock going on from the given time. */
  function writeBy<K extends Kind>(
    by: { device: string; author: string; startAt: string },
    of: { kind: K; body: BodyOf<K> },
  ) {
    const other = others.get(by.device) ?? entryMaker('marram-house', by)
    others.set(by.device, other)
    const entry = { ...other.make(of.kind, of.body), author: by.author }
    const checked = checkEntry(state, entry)
    if (!checked.ok) throw new Error(JSON.stringify(checked.issues))
    state = extend(state, [checked.entry])
  }
  /** Writes through the rules; gives what speaks against it. */
  function propose<K extends Kind>(kind: K, body: BodyOf<K>, corrects?: { entry: string; reason: string }) {
    const entry = maker.make(kind, body, corrects)
    const checked = checkEntry(state, entry)
    if (!checked.ok) return { entry, issues: checked.issues }
    state = extend(state, [checked.entry])
    return { entry: checked.entry, issues: [] }
  }
  return {
    get state() {
      return state
    },
    propose,
    writeBy,
    /** paths of what speaks against an entry; none means it was written */
    paths: <K extends Kind>(kind: K, body: BodyOf<K>): string[] => propose(kind, body).issues.map(({ path }) => path),
    /** writes what must be sound */
    write<K extends Kind>(kind: K, body: BodyOf<K>) {
      const { entry, issues } = propose(kind, body)
      if (issues.length > 0) throw new Error(JSON.stringify(issues))
      return entry
    },
  }
}
