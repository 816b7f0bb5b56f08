import planning from '@rillmark/reference/plan/planning.json' with { type: 'json' }
import { doseOfVolumeMl } from '@rillmark/science/chlorine/dose-per-litre.ts'
import type { DisinfectantKind } from '../building/water-system.ts'
import type { SampleKind } from '../entry/fields.ts'
import type { Procedure, ProcedureStep } from '../procedures/procedure.ts'
import { stepsFor } from '../procedures/procedures.ts'
import type { Plan, Stop } from './plan-file.ts'
import { isLabelled } from './samples-at.ts'
import { FIELDWORK } from '../fieldwork/figures.ts'

export interface KitRow {
  readonly item: string
  readonly quantity: number
  readonly unit: string
  /** what it is for, or how the number came about */
  readonly why: string
}

export interface KitSection {
  readonly title: string
  readonly rows: readonly KitRow[]
}

export interface KitInput {
  readonly plan: Plan
  readonly procedures: readonly Procedure[]
  readonly disinfectant: DisinfectantKind | undefined
}

/** Everything to pack for a round, with quantities that follow from its stops and their procedures; spares included. */
export function kitList(input: KitInput): KitSection[] {
  const visits = visitsOf(input)
  return [
    { title: 'Containers', rows: containers(visits) },
    { title: 'Neutralizer and reagents', rows: reagents(input, visits) },
    { title: 'Labels', rows: labels(input.plan) },
    { title: 'For every team', rows: perTeam(input.plan) },
    { title: 'Protection', rows: protection(input.plan) },
  ].filter(({ rows }) => rows.length > 0)
}

interface Visit {
  readonly stop: Stop
  readonly procedure: Procedure
  readonly steps: readonly ProcedureStep[]
  readonly kinds: readonly SampleKind[]
}

/** A stop's samples by procedure, with the steps that are walked for them. */
function visitsOf({ plan, procedures }: KitInput): Visit[] {
  return plan.stops.flatMap((stop) => {
    const ids = [...new Set(stop.samples.map(({ procedure }) => procedure))]
    return ids.flatMap((id): Visit[] => {
      const procedure = procedures.find((one) => one.id === id)
      if (procedure === undefined) return []
      const kinds = stop.samples.filter((one) => one.procedure === id).map(({ sampleKind }) => sampleKind)
      return [{ stop, procedure, kinds, steps: stepsFor(procedure, kinds) }]
    })
  })
}

const { spareShare, dropMl } = planning.kit
const withSpare = (number: number): number => number + Math.max(1, Math.ceil(number * spareShare.value))

function containers(visits: readonly Visit[]): KitRow[] {
  const counts = new Map<string, number>()
  for (const { procedure, steps, kinds } of visits)
    for (const { produces, container } of steps) {
      if (produces === undefined || produces === 'readings-only' || !kinds.includes(produces)) continue
      const found = procedure.containers.find(({ id }) => id === container)
      if (found === undefined) continue
      const { value, unit } = found.capacity
      const item = `${found.name}, ${typeof value === 'number' ? value : value.max} ${unit}`
      counts.set(item, (counts.get(item) ?? 0) + 1)
    }
  return [...counts].map(([item, planned]) => ({
    item,
    quantity: withSpare(planned),
    unit: 'pieces',
    why: `${planned} planned, the rest spare`,
  }))
}

const DROP = /drop/
const PER_LITRE = /mL .* per L/

function reagents({ plan, disinfectant }: KitInput, visits: readonly Visit[]): KitRow[] {
  const rows: KitRow[] = []
  const doses = visits.flatMap((visit) => visit.steps.flatMap((step) => doseMl(visit, step)))
  const neededMl = doses.reduce((sum, one) => sum + one, 0)
  if (neededMl > 0) {
    const quantity = Math.ceil(neededMl * (1 + spareShare.value))
    const item = 'sodium thiosulfate, 0.1 N, sterile, in date'
    rows.push({
      item,
      quantity,
      unit: 'mL',
      why: `${neededMl.toFixed(1)} mL by procedure; more after shock chlorination`,
    })
  }
  const readings = (what: string): number =>
    visits.filter(({ steps }) => steps.some((step) => step.readings.some((one) => one === what))).length
  const residuals = readings('residual')
  if (residuals > 0)
    rows.push({
      item: chlorineTest(disinfectant),
      quantity: withSpare(residuals),
      unit: 'tests',
      why: `range must fit: below ${FIELDWORK.lowResidualMgPerL} mg/L and up to ${FIELDWORK.residualUpToMgPerL} mg/L`,
    })
  const ph = readings('ph')
  if (ph > 0)
    rows.push({
      item: 'pH strips, or buffers for the meter',
      quantity: withSpare(ph),
      unit: 'tests',
      why: 'one a point that reads pH',
    })
  const blanks = plan.stops.filter(({ samples }) =>
    samples.some(({ sampleKind }) => sampleKind === 'field-blank'),
  ).length
  if (blanks > 0)
    rows.push({
      item: 'sterile water for field blanks',
      quantity: blanks,
      unit: 'L',
      why: 'opened on site, one litre a blank',
    })
  return rows
}

function doseMl({ procedure }: Visit, step: ProcedureStep): number[] {
  const { dose } = step
  if (step.kind !== 'neutralize' || dose === undefined || typeof dose.value !== 'number') return []
  if (DROP.test(dose.unit)) return [dose.value * dropMl.value]
  if (!PER_LITRE.test(dose.unit)) return []
  const capacity = procedure.containers.find(({ id }) => id === step.container)?.capacity
  if (capacity === undefined || capacity.unit !== 'mL') return []
  const ml = typeof capacity.value === 'number' ? capacity.value : capacity.value.max
  return [doseOfVolumeMl({ mlPerL: dose.value, volumeMl: ml })]
}

function chlorineTest(disinfectant: DisinfectantKind | undefined): string {
  if (disinfectant === 'free-chlorine') return 'chlorine test, free'
  if (disinfectant === 'chlorine-dioxide') return 'chlorine dioxide test'
  return 'chlorine test, total'
}

function labels(plan: Plan): KitRow[] {
  const planned = plan.stops.flatMap(({ samples }) => samples).filter((one) => isLabelled(one)).length
  if (planned === 0) return []
  return [
    { item: 'labels, printed, waterproof', quantity: planned, unit: 'pieces', why: 'one a sample' },
    {
      item: 'blank waterproof labels',
      quantity: withSpare(planned) - planned,
      unit: 'pieces',
      why: 'spare, to be written by hand',
    },
  ]
}

const teamsOf = ({ stops, budget }: Plan): number =>
  Math.max(budget.teams ?? 1, 1, ...stops.map(({ team }) => team ?? 1))

function perTeam(plan: Plan): KitRow[] {
  if (plan.stops.length === 0) return []
  return planning.kit.perTeam.map(({ item, quantity, for: why }) => ({
    item,
    quantity: quantity * teamsOf(plan),
    unit: 'pieces',
    why,
  }))
}

function protection(plan: Plan): KitRow[] {
  if (plan.stops.length === 0) return []
  return planning.kit.protective.map(({ item, per, quantity, for: why }) => ({
    item,
    quantity: quantity * (per === 'stop' ? plan.stops.length : teamsOf(plan)),
    unit: 'pieces',
    why,
  }))
}
