import type { Component, Pipe, WaterSystem } from '../building/water-system.ts'

/** What is done to a sound small building so that one thing is wrong with it. */
export interface Wrong {
  readonly setpointC?: number
  readonly supplyC?: number
  /** by id of the pipe */
  readonly pipes?: Readonly<Record<string, Partial<Pipe>>>
  readonly components?: Readonly<Record<string, Partial<Component>>>
  readonly without?: readonly string[]
}

const wrapped = { insulationMm: 30, insulationConductivityWPerMK: 0.035 }
const WIDE = { boreMm: 26, outsideDiameterMm: 28, ...wrapped }
const MIDDLE = { boreMm: 20, outsideDiameterMm: 22, ...wrapped }
const NARROW = { boreMm: 13, outsideDiameterMm: 15, ...wrapped }

/**
 * A sound small building: entry, heater, one riser with a circulation to its top, and a tap on short pipes that is used every half
 * hour, so that nothing in it is worth naming as a cause. Then one thing is made wrong.
 */
export function soundBuilding(wrong: Wrong = {}): WaterSystem {
  const use = { pattern: 'schedule' as const, draws: everyHalfHour() }
  const components: Component[] = [
    { id: 'entry', kind: 'supply-entry', floor: 0 },
    {
      id: 'heater',
      kind: 'storage-heater',
      label: 'Heater 1',
      volumeL: 100,
      setpointC: wrong.setpointC ?? 62,
      floor: 0,
    },
    { id: 'cold-foot', kind: 'junction', riser: 'A', floor: 0 },
    { id: 'cold-top', kind: 'junction', riser: 'A', floor: 3 },
    { id: 'hot-foot', kind: 'junction', riser: 'A', floor: 0 },
    { id: 'hot-top', kind: 'junction', riser: 'A', floor: 3 },
    { id: 'tap', kind: 'basin-tap', riser: 'A', floor: 3, room: '301', use },
  ]
  const pipes: Pipe[] = [
    { id: 'in', from: 'entry', to: 'cold-foot', circuit: 'cold', lengthM: 8, ...WIDE },
    { id: 'fill', from: 'cold-foot', to: 'heater', circuit: 'cold', lengthM: 2, ...WIDE },
    { id: 'cold-riser', from: 'cold-foot', to: 'cold-top', circuit: 'cold', lengthM: 10, ...MIDDLE },
    { id: 'cold-branch', from: 'cold-top', to: 'tap', circuit: 'cold', lengthM: 1, ...NARROW },
    { id: 'out', from: 'heater', to: 'hot-foot', circuit: 'hot', lengthM: 4, ...WIDE },
    { id: 'hot-riser', from: 'hot-foot', to: 'hot-top', circuit: 'hot', lengthM: 10, ...MIDDLE },
    { id: 'hot-branch', from: 'hot-top', to: 'tap', circuit: 'hot', lengthM: 1, ...NARROW },
    {
      id: 'return',
      from: 'hot-top',
      to: 'heater',
      circuit: 'hot-return',
      lengthM: 14,
      recirculationLPerMin: 4,
      ...NARROW,
    },
  ]
  const gone = new Set(wrong.without)
  return {
    format: 'rillmark/water-system@1',
    name: 'one riser',
    ambientC: 20,
    supply: {
      temperatureC: wrong.supplyC ?? 12,
      pH: 7.5,
      disinfectant: { kind: 'free-chlorine', residualMgPerL: 0.8 },
    },
    decay: { bulkPerHour: 0.02, wallMPerHour: 0.0005, referenceC: 20, activationKJPerMol: 50 },
    components: components.filter(({ id }) => !gone.has(id)).map((one) => ({ ...one, ...wrong.components?.[one.id] })),
    pipes: pipes.filter(({ id }) => !gone.has(id)).map((one) => ({ ...one, ...wrong.pipes?.[one.id] })),
  }
}

const HALF_HOURS = 48

function everyHalfHour() {
  return Array.from({ length: HALF_HOURS }, (_, half) => ({
    at: `${String(Math.floor(half / 2)).padStart(2, '0')}:${half % 2 === 0 ? '00' : '30'}`,
    minutes: 1,
    flowLPerMin: 6,
    mixToC: 38,
  }))
}
