import { componentName } from '../building/labels.ts'
import { isRoomOf, isWiderPartOf } from '../building/named-place.ts'
import { type Component, type ComponentKind, isDevice } from '../building/water-system.ts'
import { because, type PlanContext, type Wish } from './plan-context.ts'
import type { UsedPlace } from './plan-input.ts'
import { PLANNING } from './planning.ts'

const KINDS_USED: Partial<Record<UsedPlace['kind'], readonly ComponentKind[]>> = {
  shower: ['shower', 'hand-shower'],
  bath: ['bath', 'hand-shower'],
  tap: ['basin-tap', 'kitchen-tap', 'cleaner-sink'],
  spa: ['spa-pool'],
  fountain: ['ornamental-fountain', 'drinking-fountain'],
  ice: ['ice-machine'],
}

/** What sprays most comes first where a place is too large to sample whole. */
const SPRAY_ORDER: readonly ComponentKind[] = [
  'shower',
  'hand-shower',
  'spa-pool',
  'humidifier',
  'ornamental-fountain',
  'bath',
  'kitchen-tap',
  'basin-tap',
]

/** The outlets the cases used: the component named, else the outlets of the room, else some of the wing, riser or floor. */
export function caseWishes(context: PlanContext): Wish[] {
  const unplaced = new Map<string, Set<string>>()
  const wishes = (context.input.used ?? []).flatMap((used): Wish[] => {
    const found = outletsUsed(context, used)
    if (found.length === 0) {
      const codes = unplaced.get(used.place) ?? new Set()
      unplaced.set(used.place, codes.add(used.caseCode))
    }
    return found.map((component) => wish(component, used))
  })
  for (const [place, codes] of unplaced)
    context.notes.push(`No point of the described building was found for "${place}" (${[...codes].join(', ')}).`)
  return wishes
}

function wish(component: Component, used: UsedPlace): Wish {
  const way = used.component === component.id ? 'named' : `found by place "${used.place}"`
  const text = `Used by case ${used.caseCode} (${used.kind === 'other' ? 'exposure' : used.kind}; ${way}).`
  return { component, reason: because('case exposure', { text, evidence: [used.entry ?? used.caseCode] }) }
}

function outletsUsed(context: PlanContext, used: UsedPlace): Component[] {
  const named = context.outlets.filter((one) => one.id === used.component)
  if (named.length > 0) return named
  const room = fitting(
    context.outlets.filter((one) => isRoomOf(one, used.place)),
    used,
  )
  if (room.length > 0) return room
  const wide = fitting(
    context.outlets.filter((one) => isWiderPartOf(one, used.place)),
    used,
  )
  const spraying = wide.toSorted((a, b) => sprayOrder(a) - sprayOrder(b)).slice(0, PLANNING.perSharedPlace)
  if (wide.length > spraying.length)
    context.notes.push(
      `"${used.place}" (${used.caseCode}) has ${wide.length} outlets; ${spraying.length} of them stand for it: ${spraying.map((one) => componentName(one)).join(', ')}.`,
    )
  return spraying
}

const sprayOrder = ({ kind }: Component): number => {
  const at = SPRAY_ORDER.indexOf(kind)
  return at === -1 ? SPRAY_ORDER.length : at
}

/** Those of the kind used, or all where none is of that kind. A stay is about the fittings of the room, not its devices. */
function fitting(found: readonly Component[], used: UsedPlace): Component[] {
  const kinds = KINDS_USED[used.kind]
  if (kinds === undefined) return found.filter((one) => used.kind === 'device' || !isDevice(one) || found.length === 1)
  const fits = found.filter(({ kind }) => kinds.includes(kind))
  return fits.length > 0 ? fits : [...found]
}
