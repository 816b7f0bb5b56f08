import { deviceName } from '../building/devices.ts'
import { deadLegs } from '../building/graph-questions.ts'
import { componentName, kindWord } from '../building/labels.ts'
import { type Component, isDevice } from '../building/water-system.ts'
import { because, metresTo, outletNear, type PlanContext, type Wish } from './plan-context.ts'
import { PLANNING } from './planning.ts'
import { comparePlaces } from './positions.ts'

/** Low use, dead legs, recent works: where water stands or was disturbed. */
export function weakWishes(context: PlanContext): Wish[] {
  return [...lowUse(context), ...legs(context), ...works(context)]
}

const perDay = ({ use }: Component): number | undefined => {
  if (use?.pattern === 'unused') return 0
  return use?.pattern === 'pulses' ? use.eventsPerDay : undefined
}

export const isLittleUsed = (component: Component): boolean => (perDay(component) ?? 1) < PLANNING.lowUseBelowPerDay

function lowUse(context: PlanContext): Wish[] {
  const byRiser = new Map<string, Component[]>()
  for (const outlet of context.outlets.filter((one) => isLittleUsed(one))) {
    const riser = outlet.riser ?? ''
    byRiser.set(riser, [...(byRiser.get(riser) ?? []), outlet])
  }
  return [...byRiser]
    .sort(([a], [b]) => comparePlaces(a, b))
    .flatMap(([riser, outlets]) => {
      const farthest = outlets
        .toSorted((a, b) => metresTo(context, b) - metresTo(context, a))
        .slice(0, PLANNING.lowUsePerRiser)
      const left = outlets.length - farthest.length
      if (left > 0)
        context.notes.push(
          `${left} more little-used outlets ${riser === '' ? 'without a riser' : `on riser ${riser}`} are represented by the farthest ones.`,
        )
      return farthest.map((component, step): Wish => {
        const text =
          component.use?.pattern === 'unused'
            ? 'Not used at all: its water stands.'
            : 'Used less than once a week: its water stands.'
        return { component, reason: because('low use', { text, evidence: [component.id] }), step }
      })
    })
}

function legs(context: PlanContext): Wish[] {
  return deadLegs(context.graph).flatMap((leg, step): Wish[] => {
    const end = leg.outlets[0]
    const component = end === undefined ? outletNear(context, leg.from) : context.graph.components.get(end)
    if (component === undefined) return []
    const metres = Math.round(leg.lengthM * 10) / 10
    const text = `${end === undefined ? 'Nearest outlet to a' : 'At the end of a'} dead leg of ${metres} m on the ${leg.circuit} side.`
    return [
      {
        component,
        reason: because('dead leg', { text, evidence: [...leg.pipes] }),
        step: Math.floor(step / PLANNING.lowUsePerRiser),
      },
    ]
  })
}

const WORKS = new Set(['works', 'closure', 'outage', 'setting changed', 'supply event'])

function works(context: PlanContext): Wish[] {
  return (context.input.history ?? [])
    .filter(({ what }) => WORKS.has(what))
    .flatMap((event): Wish[] => {
      const near = event.components.flatMap((id) => {
        const pipe = context.graph.pipes.get(id)
        return outletNear(context, pipe?.to ?? id) ?? []
      })
      const points = [...new Set(near)].slice(0, PLANNING.perWorks)
      const text = `${event.what} on ${event.on}${event.text === '' ? '' : `: ${event.text}`}`
      return points.map((component, step) => ({
        component,
        reason: because('recent works', {
          text,
          evidence: event.entry === undefined ? [...event.components] : [event.entry],
        }),
        step,
      }))
    })
}

/** Devices that store, warm or spray water: those in the description and those the sweep found. */
export function deviceWishes(context: PlanContext): Wish[] {
  const sweep = context.input.sweep ?? []
  const absent = new Set(sweep.filter(({ state }) => state === 'absent').flatMap(({ component }) => component ?? []))
  const swept = new Map(
    sweep.flatMap((one) =>
      one.state === 'present' && one.component !== undefined ? [[one.component, one] as const] : [],
    ),
  )
  for (const one of sweep.filter(({ state }) => state === 'present')) {
    const known = one.component !== undefined && context.graph.components.has(one.component)
    if (!known && !context.outlets.some((outlet) => kindWord(outlet.kind) === one.device || outlet.kind === one.device))
      context.notes.push(
        `The sweep found “${deviceName(one.device)}”${one.place ? ` at ${one.place}` : ''}, but the described building has no such point: add it to plan a sample there.`,
      )
  }
  const open = sweep.filter(({ state }) => state === 'not looked at').map(({ device }) => device)
  if (open.length > 0)
    context.notes.push(
      `Nobody has looked yet for: ${open.map(deviceName).join(', ')}. What was not looked for is not in this plan.`,
    )
  return context.outlets
    .filter((one) => (isDevice(one) || swept.has(one.id)) && !absent.has(one.id))
    .map((component) => {
      const text = `${componentName(component)}: a device that stores, warms or sprays water can be the source on its own.`
      return {
        component,
        reason: because('device', { text, evidence: [swept.get(component.id)?.entry ?? component.id] }),
      }
    })
}
