import type { BodyOf } from '@rillmark/casebook/entry/kinds.ts'
import type { DemoDesk } from '../desk.ts'

type Case = BodyOf<'case.recorded'>
type Exposure = Omit<BodyOf<'exposure.recorded'>, 'caseCode'>

/** Five invented cases, by code only, each with the places they used. Rooms on riser C recur. */
const CASES: readonly { at: string; recorded: Case; exposures: readonly Exposure[] }[] = [
  {
    at: '2026-03-02T09:30',
    recorded: {
      code: 'MH-01',
      onsetDate: '2026-02-11',
      classification: 'confirmed',
      link: 'presumptive',
      isolate: 'kept',
      notes: 'Urine antigen positive; sputum culture kept by the hospital laboratory.',
    },
    exposures: [
      { place: 'Room 605', kind: 'stay', from: '2025-11-03', to: '2026-02-12' },
      { place: 'Shower, room 605', kind: 'shower', from: '2026-01-28', to: '2026-02-10' },
      { place: 'Dining room', kind: 'visit', from: '2026-01-28', to: '2026-02-11' },
    ],
  },
  {
    at: '2026-03-02T09:42',
    recorded: {
      code: 'MH-02',
      onsetDate: '2026-02-24',
      classification: 'confirmed',
      link: 'presumptive',
      isolate: 'kept',
      notes: 'Bronchial culture kept.',
    },
    exposures: [
      { place: 'Room 405', kind: 'stay', from: '2024-06-17', to: '2026-02-26' },
      { place: 'Shower, room 405', kind: 'shower', from: '2026-02-10', to: '2026-02-23' },
      { place: 'Hairdresser', kind: 'tap', from: '2026-02-19', to: '2026-02-19' },
    ],
  },
  {
    at: '2026-03-02T15:05',
    recorded: {
      code: 'MH-03',
      onsetDate: '2026-02-27',
      classification: 'probable',
      link: 'presumptive',
      isolate: 'asked for',
    },
    exposures: [
      { place: 'Room 505', kind: 'stay', from: '2025-08-01', to: '2026-03-01' },
      { place: 'Shower, room 505', kind: 'shower', from: '2026-02-14', to: '2026-02-26' },
    ],
  },
  {
    at: '2026-03-03T10:20',
    recorded: {
      code: 'MH-04',
      onsetDate: '2026-02-20',
      classification: 'suspected',
      link: 'possible',
      isolate: 'none taken',
      notes: 'Visited a spa hotel for four nights; both places stay open.',
    },
    exposures: [
      { place: 'Room 303', kind: 'stay', from: '2026-02-14', to: '2026-02-21' },
      { place: 'Spa hotel', kind: 'spa', from: '2026-02-09', to: '2026-02-13' },
      { place: 'Hairdresser', kind: 'tap', from: '2026-02-19', to: '2026-02-19' },
    ],
  },
  {
    at: '2026-03-05T16:30',
    recorded: {
      code: 'MH-05',
      onsetDate: '2026-03-03',
      classification: 'confirmed',
      link: 'presumptive',
      isolate: 'none taken',
    },
    exposures: [
      { place: 'Room 305', kind: 'stay', from: '2025-12-12', to: '2026-03-04' },
      { place: 'Shower, room 305', kind: 'shower', from: '2026-02-17', to: '2026-03-02' },
      { place: 'Dining room', kind: 'visit', from: '2026-02-17', to: '2026-03-03' },
    ],
  },
]

/** Records the cases known by a moment, with their exposures. */
export function recordCases(desk: DemoDesk, { from, to }: { from: string; to: string }): void {
  for (const { at, recorded, exposures } of CASES) {
    if (at < from || at >= to) continue
    desk.write('case.recorded', recorded, { at })
    for (const exposure of exposures) desk.write('exposure.recorded', { caseCode: recorded.code, ...exposure }, { at })
  }
}

/** What became known later: a classification amended, a place entered twice withdrawn. */
export function amendCases(desk: DemoDesk): void {
  const probable = desk.state.cases.cases.get('MH-03')
  if (probable !== undefined)
    desk.write(
      'case.recorded',
      { ...probable.body, classification: 'confirmed', isolate: 'none taken' },
      {
        at: '2026-03-10T11:15',
        corrects: { entry: probable.id, reason: 'Urine antigen reported positive; no respiratory sample was taken.' },
      },
    )
  const twice = desk.write(
    'exposure.recorded',
    { caseCode: 'MH-04', place: 'Dining room', kind: 'visit', from: '2026-02-14', to: '2026-02-20' },
    { at: '2026-03-10T11:20' },
  )
  desk.write(
    'entry.withdrawn',
    {},
    { at: '2026-03-10T11:32', corrects: { entry: twice.id, reason: 'The family says MH-04 took meals in the room.' } },
  )
}
