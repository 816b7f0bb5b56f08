import type { Component } from '../building/water-system.ts'

/** Digits compare as numbers, everything else by code point: "9" before "10", "Riser B" before "Riser C". */
export function comparePlaces(a: string, b: string): number {
  const parts = (text: string): string[] => text.match(/\d+|\D+/g) ?? []
  const left = parts(a)
  const right = parts(b)
  for (let at = 0; at < Math.min(left.length, right.length); at++) {
    const [one = '', two = ''] = [left[at], right[at]]
    const numeric = /^\d/.test(one) && /^\d/.test(two) ? Number(one) - Number(two) : 0
    if (numeric !== 0) return numeric
    if (one !== two && !(/^\d/.test(one) && /^\d/.test(two))) return one < two ? -1 : 1
  }
  return left.length - right.length
}

/** Where a component stands, for a stable order that does not hang on ids: floor, riser, room, kind, label, then id. */
export function compareComponents(a: Component, b: Component): number {
  return (
    (a.floor ?? 0) - (b.floor ?? 0) ||
    comparePlaces(a.riser ?? '', b.riser ?? '') ||
    comparePlaces(a.room ?? '', b.room ?? '') ||
    comparePlaces(a.kind, b.kind) ||
    comparePlaces(a.label ?? '', b.label ?? '') ||
    comparePlaces(a.id, b.id)
  )
}
