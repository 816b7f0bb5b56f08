import { dayPatternOf } from '@rillmark/science/network/day-pattern.ts'
import { HABIT_MINUTES } from '@rillmark/science/network/draw-control.ts'
import { drawsOf } from '@rillmark/science/network/draw-schedule.ts'
import type { Draw } from '@rillmark/science/network/network.ts'
import { assumedUse } from '../building/assumptions.ts'
import { kindWord } from '../building/labels.ts'
import { type Component, isOutlet, knownByOf, type Use } from '../building/water-system.ts'
import type { PlacedComponent } from './compiled.ts'
import { assumedUseNote, guessedUseNote } from './filled-in.ts'
import type { NetworkDraft } from './network-draft.ts'

const MINUTES_A_DAY = 1440

/** Where water leaves, and when: the described uses, or those usual for the kind. */
export function compileOutlets(draft: NetworkDraft): void {
  for (const component of draft.system.components) {
    const placed = draft.placed.get(component.id)
    if (!isOutlet(component) || placed === undefined) continue
    const { hotNode, coldNode } = portsOf(draft, { component, placed })
    const draws = drawsAt(draft, { component, hasHot: hotNode !== undefined })
    if (hotNode !== undefined && coldNode !== undefined && draws.some((draw) => draw.mixToC === undefined))
      draft.choose('sides', component.id)
    if (hotNode !== undefined && coldNode !== undefined && draws.some(isByHabit)) draft.choose('habit', component.id)
    placed.outlet = draft.outlets.push({ id: component.id, hotNode, coldNode, draws }) - 1
  }
}

/** Too short for the mixer to follow the water that arrives. */
const isByHabit = ({ mixToC, minutes }: Draw): boolean => mixToC !== undefined && minutes <= HABIT_MINUTES

interface Ports {
  hotNode: number | undefined
  coldNode: number | undefined
}

/** Tempered water is drawn as hot, beside hot water as cold. */
function portsOf(draft: NetworkDraft, { component, placed }: { component: Component; placed: PlacedComponent }): Ports {
  const { hot, tempered, cold } = placed.circuits
  if (hot === undefined || tempered === undefined) return { hotNode: hot ?? tempered, coldNode: cold }
  if (cold === undefined) return { hotNode: hot, coldNode: tempered }
  draft.cannotSay.push({
    at: component.id,
    why: 'hot, cold and tempered water come to it; only hot and cold are drawn, the tempered pipe stands',
    needs: 'two circuits at one outlet, or two outlets',
  })
  return { hotNode: hot, coldNode: cold }
}

function drawsAt(draft: NetworkDraft, { component, hasHot }: { component: Component; hasHot: boolean }): Draw[] {
  const factor = useFactor(draft, component)
  const use = component.use ?? assumedUse(component.kind)
  if (use.pattern === 'unused' || factor === 0) return []
  return drawsOfUse(draft, { component, use, factor }).map((draw) => (hasHot ? draw : withoutMixing(draw)))
}

function withoutMixing(draw: Draw): Draw {
  const { mixToC: _, ...rest } = draw
  return rest
}

interface Drawn {
  component: Component
  use: Exclude<Use, { pattern: 'unused' }>
  factor: number
}

function drawsOfUse(draft: NetworkDraft, { component, use, factor }: Drawn): Draw[] {
  const mixed = use.mixToC === undefined ? {} : { mixToC: use.mixToC }
  if (use.pattern === 'constant')
    return [{ startMinute: 0, minutes: MINUTES_A_DAY, flowLPerMin: use.flowLPerMin * factor, ...mixed }]
  if (use.pattern === 'schedule')
    return use.draws.map(({ at, minutes, flowLPerMin, mixToC }) => ({
      startMinute: minuteOf(at),
      minutes: Math.min(minutes * factor, MINUTES_A_DAY),
      flowLPerMin,
      ...(mixToC === undefined ? mixed : { mixToC }),
    }))
  draft.choose('clock', component.id)
  const { minutes, flowLPerMin } = use
  const eventsPerDay = Math.min(use.eventsPerDay * factor, MINUTES_A_DAY / minutes)
  const dayPattern = dayPatternOf(component.kind)
  return drawsOf({ outletId: component.id, seed: draft.seed, eventsPerDay, minutes, flowLPerMin, dayPattern, ...mixed })
}

const minuteOf = (at: string): number => Number(at.slice(0, 2)) * 60 + Number(at.slice(3))

/** Times the use: 1 where it is described, else what is tried of the kind. */
function useFactor({ overrides, log }: NetworkDraft, component: Component): number {
  const { id, kind, use } = component
  if (use !== undefined && knownByOf(component, 'use') !== 'guessed') return 1
  const named = kindWord(kind)
  const note =
    use === undefined ? assumedUseNote({ kind, named, use: assumedUse(kind) }) : guessedUseNote({ kind, named })
  const tried = overrides.assumed?.[note.id] ?? note.value
  log.note({ ...note, value: tried }, id)
  return tried
}
