import { isOutlet } from '@rillmark/casebook/building/water-system.ts'
import type { BodyOf } from '@rillmark/casebook/entry/kinds.ts'
import { runCalculation } from '@rillmark/science/catalogue/catalogue.ts'
import { type DemoDesk, later, VALE, wallTime } from '../desk.ts'
import { spread } from './spread.ts'

const MANAGER = 'Facility manager'
const PLUMBER = 'Plumbing contractor'
const CONTRACTOR = 'Water treatment contractor'

type Ordered = BodyOf<'measure.ordered'>

/** The outlets of riser C, where people meet its water. */
function outletsOfC(desk: DemoDesk): string[] {
  return (desk.state.building.system?.components ?? [])
    .filter((one) => isOutlet(one) && one.riser === 'C')
    .map(({ id }) => id)
}

/** Protection on the first day: nobody showers from the suspected riser. */
export function restrictUse(desk: DemoDesk): void {
  carryOut(desk, {
    ordered: order('restrict use', {
      stage: 'immediate',
      where: 'showers on riser C',
      components: showersOfC(desk),
      owner: MANAGER,
      dueOn: '2026-03-03',
    }),
    at: '2026-03-03T10:30',
    doneAt: '2026-03-03T11:00',
  })
}

/** Filters after the first samples were taken, so that people may shower again. */
export function fitFilters(desk: DemoDesk): void {
  carryOut(desk, {
    ordered: order('fit point-of-use filter', {
      stage: 'immediate',
      where: 'showers on riser C',
      components: showersOfC(desk),
      owner: MANAGER,
      dueOn: '2026-03-06',
    }),
    at: '2026-03-04T20:30',
    doneAt: '2026-03-06T15:00',
    proved: true,
  })
}

const showersOfC = (desk: DemoDesk): string[] => outletsOfC(desk).filter((id) => id.startsWith('shower'))

/** Remediation after the first results: the return balanced, then the hot water of riser C disinfected, proved at each outlet. */
export function remediate(desk: DemoDesk): void {
  carryOut(desk, {
    ordered: order('balance recirculation', {
      stage: 'remediation',
      where: 'hot return, all four risers',
      components: ['return-main-c'],
      owner: PLUMBER,
      dueOn: '2026-03-18',
      notes: 'Valve of return C found nearly closed.',
    }),
    at: '2026-03-16T11:00',
    doneAt: '2026-03-17T16:00',
    proved: true,
  })
  const input = {
    waterVolumeL: 2600,
    targetMgPerL: 50,
    demandMgPerL: 2,
    product: { kind: 'sodium-hypochlorite', availableChlorinePercent: 10.3, densityKgPerL: 1.21 },
  }
  const dose = runCalculation({ id: 'shock-dose', input })
  const ordered: Ordered = {
    ...order('shock chlorination', {
      stage: 'remediation',
      where: 'heaters and hot water of riser C',
      components: outletsOfC(desk),
      owner: CONTRACTOR,
      dueOn: '2026-03-20',
    }),
    target: { quantity: 'free chlorine', value: 50, unit: 'mg/L', minutes: 60 },
    ...('result' in dose ? { calculation: { id: 'shock-dose', input, result: dose.result } } : {}),
  }
  carryOut(desk, {
    ordered,
    at: '2026-03-16T11:20',
    doneAt: '2026-03-19T22:30',
    proved: true,
    reached: (id) => ({
      quantity: 'free chlorine',
      value: spread(`${id} shock`, { from: 51, to: 58 }),
      unit: 'mg/L',
      minutes: 60,
    }),
  })
}

/** After the second round: the shower that still grew was rebuilt without its dead leg and flushed. */
export function remediateAgain(desk: DemoDesk): void {
  carryOut(desk, {
    ordered: order('remove dead leg', {
      stage: 'remediation',
      where: 'capped branch behind shower 605',
      components: ['shower-c605'],
      owner: PLUMBER,
      dueOn: '2026-04-16',
    }),
    at: '2026-04-14T15:00',
    doneAt: '2026-04-16T12:00',
    proved: true,
  })
  desk.write(
    'measure.ordered',
    order('continuous disinfection', {
      stage: 'long-term',
      where: 'hot water of the whole house',
      components: [],
      owner: MANAGER,
      dueOn: '2026-06-30',
      notes: 'To be decided with the water treatment contractor.',
    }),
    { at: '2026-04-17T09:30', by: VALE },
  )
}

function order(measure: Ordered['measure'], rest: Omit<Ordered, 'measure'>): Ordered {
  return { measure, ...rest }
}

interface Work {
  readonly ordered: Ordered
  readonly at: string
  readonly doneAt: string
  readonly proved?: boolean
  readonly reached?: (component: string) => NonNullable<BodyOf<'measure.achieved'>['achieved']>
}

function carryOut(desk: DemoDesk, { ordered, at, doneAt, proved, reached }: Work): void {
  const { id } = desk.write('measure.ordered', ordered, { at, by: VALE })
  const proofs = proved === true ? ordered.components : []
  for (const [index, component] of proofs.entries()) {
    const achievedAt = later(doneAt, index)
    desk.write(
      'measure.achieved',
      {
        measure: id,
        component,
        at: wallTime(achievedAt).instant,
        reached: true,
        by: ordered.owner,
        ...(reached === undefined ? {} : { achieved: reached(component) }),
      },
      { at: later(achievedAt, 1), by: VALE },
    )
  }
  desk.write(
    'measure.completed',
    { measure: id, completedOn: doneAt.slice(0, 10), outcome: 'carried out' },
    { at: later(doneAt, proofs.length + 5), by: VALE },
  )
}
