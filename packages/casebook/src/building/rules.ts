import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import type { Rule, Rules } from '../rules/rule.ts'
import type { InvestigationState } from '../state/investigation-state.ts'
import { checkSystem } from './check-system.ts'
import { isSweepable } from './devices.ts'
import type { SystemChange } from './kinds.ts'
import { namedParts } from './named-parts.ts'
import { lastDayBegun } from '../units/local-time.ts'

/** A description with errors can be neither planned on nor simulated; warnings ask to be looked at and let it in. */
const describedIsUsable: Rule<'building.described'> = ({ body }) =>
  checkSystem(body.system)
    .filter(({ severity }) => severity === 'error')
    .map(({ path, expected, received }) => ({ path: `body.system.${path}`, expected, received }))

/** Samples, exposures and measures point at components, so a new description still has those. */
const describedKeepsNamed: Rule<'building.described'> = ({ body }, { state }) => {
  const ids = new Set(body.system.components.map(({ id }) => id))
  return lostNames(state, { has: (id) => ids.has(id), path: 'body.system.components' })
}

/** Steps are followed one after the other: each takes away only what is there when its turn comes. */
const editFits: Rule<'building.edited'> = ({ body }, { state, amends }) => {
  const ids = idsAfter({ state, changes: body.changes, amends })
  if (ids === undefined)
    return [issue('body', { expected: 'a described building to edit', received: 'none is described' })]
  return [...ids.missing, ...danglingPipes({ state, changes: body.changes, ids })]
}

const editKeepsNamed: Rule<'building.edited'> = ({ body }, { state, amends }) => {
  const ids = idsAfter({ state, changes: body.changes, amends })
  if (ids === undefined) return []
  return lostNames(state, { has: (id) => ids.components.has(id), path: 'body.changes' })
}

interface Edit {
  readonly state: InvestigationState
  readonly changes: readonly SystemChange[]
  readonly amends?: string | undefined
}

interface IdsAfter {
  readonly components: ReadonlySet<string>
  readonly pipes: ReadonlySet<string>
  readonly missing: readonly Issue[]
}

/** An amended edit no longer counts, so what it took away is there again for the one in its place. */
function idsAfter({ state, changes, amends }: Edit): IdsAfter | undefined {
  const system = state.building.system
  if (system === undefined) return undefined
  const components = new Set(system.components.map(({ id }) => id))
  const pipes = new Set(system.pipes.map(({ id }) => id))
  for (const change of changesOf(state, amends)) {
    if (change.change === 'remove-component') components.add(change.id)
    if (change.change === 'remove-pipe') pipes.add(change.id)
  }
  const missing: Issue[] = []
  changes.forEach((change, at) => {
    if (change.change === 'put-component') components.add(change.component.id)
    if (change.change === 'put-pipe') pipes.add(change.pipe.id)
    const from = change.change === 'remove-component' ? components : change.change === 'remove-pipe' ? pipes : undefined
    if (from === undefined || !('id' in change) || from.delete(change.id)) return
    const expected = change.change === 'remove-pipe' ? 'a pipe of the building' : 'a component of the building'
    missing.push(issue(`body.changes.${at}.id`, { expected, received: change.id }))
  })
  return { components, pipes, missing }
}

function changesOf(state: InvestigationState, amends: string | undefined): readonly SystemChange[] {
  const versions = amends === undefined ? undefined : state.record.versions.get(amends)
  const latest = versions?.amendments.at(-1) ?? versions?.first
  return latest?.kind === 'building.edited' ? latest.body.changes : []
}

/** Every pipe the edit leaves behind ends at components that are there: those it puts, and those that lose an end. */
function danglingPipes({ state, changes, ids }: Edit & { ids: IdsAfter }): Issue[] {
  const put = new Map(
    changes.flatMap((change) => (change.change === 'put-pipe' ? [[change.pipe.id, change.pipe]] : [])),
  )
  const gone = new Set(changes.flatMap((change) => (change.change === 'remove-component' ? [change.id] : [])))
  const hanging = (state.building.system?.pipes ?? []).filter(
    (pipe) => !put.has(pipe.id) && (gone.has(pipe.from) || gone.has(pipe.to)),
  )
  return [...put.values(), ...hanging]
    .filter(({ id }) => ids.pipes.has(id))
    .flatMap((pipe) =>
      (['from', 'to'] as const)
        .filter((end) => !ids.components.has(pipe[end]))
        .map((end) =>
          issue(`body.changes, pipe ${pipe.id}.${end}`, {
            expected: 'a component that is there after the edit',
            received: pipe[end],
          }),
        ),
    )
}

function lostNames(state: InvestigationState, after: { has: (id: string) => boolean; path: string }): Issue[] {
  return [...namedParts(state)]
    .filter(([id]) => state.building.working.component(id) !== undefined && !after.has(id))
    .map(([id, by]) =>
      issue(after.path, { expected: `${id} kept, because other entries name it`, received: by[0]?.title }),
    )
}

const deviceIsKnown: Rule<'device.swept'> = ({ body }) =>
  isSweepable(body.device)
    ? []
    : [issue('body.device', { expected: 'a device of the list, or other: and its name', received: body.device })]

const deviceStays: Rule<'device.swept'> = ({ body }, { state, amends }) => {
  const old = [...state.building.sweep.values()].find(({ id }) => id === amends)
  if (old === undefined || old.body.device === body.device) return []
  return [issue('body.device', { expected: `${old.body.device}, the device it amends`, received: body.device })]
}

const sweptComponentExists: Rule<'device.swept'> = ({ body }, { state }) =>
  body.component === undefined ? [] : unknownParts(state, { ids: [body.component], path: 'body.component' })

const eventRunsForward: Rule<'history.recorded'> = ({ body }) =>
  body.until === undefined || body.until >= body.on
    ? []
    : [issue('body.until', { expected: `${body.on} or later`, received: body.until })]

/** What changed has happened. */
const eventHasCome: Rule<'history.recorded'> = ({ body, instant }) => {
  return body.on <= lastDayBegun(instant)
    ? []
    : [issue('body.on', { expected: 'a day that has come', received: body.on })]
}

const eventPartsExist: Rule<'history.recorded'> = ({ body }, { state }) => [
  ...unknownParts(state, { ids: body.components, path: 'body.components' }),
  ...body.components
    .filter((id, at, all) => all.indexOf(id) !== at)
    .map((id) => issue('body.components', { expected: 'each component once', received: id })),
]

function unknownParts(state: InvestigationState, { ids, path }: { ids: readonly string[]; path: string }): Issue[] {
  return ids
    .filter((id) => state.building.working.component(id) === undefined)
    .map((id) => issue(path, { expected: 'a component of the described building', received: id }))
}

export const buildingRules: Rules = {
  'building.described': [describedIsUsable, describedKeepsNamed],
  'building.edited': [editFits, editKeepsNamed],
  'device.swept': [deviceIsKnown, deviceStays, sweptComponentExists],
  'history.recorded': [eventRunsForward, eventHasCome, eventPartsExist],
}
