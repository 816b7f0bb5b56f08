import type { Appliers, EffectiveEntry } from '../state/effective.ts'
import type { SystemChange } from './kinds.ts'
import type { Component, Pipe, WaterSystem } from './water-system.ts'

export interface BuildingState {
  /** the description in force, with all edits since; undefined until someone describes the building */
  readonly system: WaterSystem | undefined
  /** the latest whole description */
  described: EffectiveEntry<'building.described'> | undefined
  /** the sweep of everything that wets air, by device id */
  readonly sweep: Map<string, EffectiveEntry<'device.swept'>>
  readonly history: EffectiveEntry<'history.recorded'>[]
  /** what was predicted, in the order of the record; the last one counts */
  readonly predictions: EffectiveEntry<'prediction.recorded'>[]
  /** fits that were taken over, in the order of the record; the last one counts */
  readonly fits: EffectiveEntry<'fit.accepted'>[]
  readonly working: WorkingSystem
}

export const emptyBuilding = (): BuildingState => {
  const working = new WorkingSystem()
  return {
    get system() {
      return working.system()
    },
    described: undefined,
    sweep: new Map(),
    history: [],
    predictions: [],
    fits: [],
    working,
  }
}

/** The system being described, kept by id so that an edit costs its own size only; assembled when someone looks. */
export class WorkingSystem {
  #head: Omit<WaterSystem, 'components' | 'pipes'> | undefined
  readonly #components = new Map<string, Component>()
  readonly #pipes = new Map<string, Pipe>()
  #assembled: WaterSystem | undefined

  replace({ components, pipes, ...head }: WaterSystem): void {
    this.#head = head
    this.#components.clear()
    this.#pipes.clear()
    for (const component of components) this.#components.set(component.id, component)
    for (const pipe of pipes) this.#pipes.set(pipe.id, pipe)
    this.#assembled = undefined
  }

  change(step: SystemChange): void {
    if (this.#head === undefined) return
    this.#assembled = undefined
    switch (step.change) {
      case 'put-component':
        this.#components.set(step.component.id, step.component)
        break
      case 'remove-component':
        this.#components.delete(step.id)
        break
      case 'put-pipe':
        this.#pipes.set(step.pipe.id, step.pipe)
        break
      case 'remove-pipe':
        this.#pipes.delete(step.id)
        break
      case 'set-supply':
        this.#head = { ...this.#head, supply: step.supply }
        break
      case 'set-name':
        this.#head = { ...this.#head, name: step.name }
        break
    }
  }

  component(id: string): Component | undefined {
    return this.#components.get(id)
  }

  pipe(id: string): Pipe | undefined {
    return this.#pipes.get(id)
  }

  system(): WaterSystem | undefined {
    if (this.#head === undefined) return undefined
    this.#assembled ??= { ...this.#head, components: [...this.#components.values()], pipes: [...this.#pipes.values()] }
    return this.#assembled
  }
}

export const buildingAppliers: Appliers<BuildingState> = {
  'building.described': (state, entry) => {
    state.described = entry
    state.working.replace(entry.body.system)
  },
  'building.edited': (state, entry) => {
    for (const change of entry.body.changes) state.working.change(change)
  },
  'device.swept': (state, entry) => {
    state.sweep.set(entry.body.device, entry)
  },
  'history.recorded': (state, entry) => {
    state.history.push(entry)
  },
  'prediction.recorded': (state, entry) => {
    state.predictions.push(entry)
  },
  'fit.accepted': (state, entry) => {
    state.fits.push(entry)
  },
}
