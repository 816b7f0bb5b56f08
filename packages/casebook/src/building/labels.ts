import type { Component, ComponentKind } from './water-system.ts'

const KIND_WORDS: Record<ComponentKind, string> = {
  'supply-entry': 'supply entry',
  treatment: 'treatment',
  'cold-tank': 'cold tank',
  'storage-heater': 'storage heater',
  'instant-heater': 'instant heater',
  'mixing-valve': 'mixing valve',
  pump: 'pump',
  junction: 'junction',
  'drain-valve': 'drain valve',
  shower: 'shower',
  'hand-shower': 'hand shower',
  'basin-tap': 'basin tap',
  'kitchen-tap': 'kitchen tap',
  bath: 'bath',
  'hose-tap': 'hose tap',
  'cleaner-sink': 'cleaner’s sink',
  other: 'other outlet',
  'drinking-fountain': 'drinking fountain',
  'ice-machine': 'ice machine',
  'spa-pool': 'spa pool',
  'ornamental-fountain': 'ornamental fountain',
  humidifier: 'humidifier',
  eyewash: 'eyewash',
  'dental-unit': 'dental unit',
  'cooling-tower': 'cooling tower',
}

/** The word people use for a kind of component: `basin-tap` → "basin tap". */
export const kindWord = (kind: ComponentKind): string => KIND_WORDS[kind]

/** A short name of a component for lists and the drawing: its label, else room and kind, else its id with the kind it does not say itself. */
export function componentName(component: Component): string {
  if (component.label !== undefined) return component.label
  const word = kindWord(component.kind)
  if (component.room !== undefined) return `${component.room} ${word}`
  return component.id.startsWith(component.kind) ? component.id : `${word} ${component.id}`
}
