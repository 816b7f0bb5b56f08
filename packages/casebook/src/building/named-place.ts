import type { Component } from './water-system.ts'

/** Whether a place as people write it ("Shower, room 605") names this component's room or label: all its words, one after another. */
export function isRoomOf({ room, label }: Component, place: string): boolean {
  const words = wordsOf(place)
  return isNamed(words, room) || isNamed(words, label)
}

/** Whether a place names the zone, riser or floor a component is on. */
export function isWiderPartOf({ zone, riser, floor }: Component, place: string): boolean {
  const words = wordsOf(place)
  if (isNamed(words, zone)) return true
  if (riser !== undefined && isNamed(words, `riser ${riser}`)) return true
  return floor !== undefined && isNamed(words, `floor ${floor}`)
}

const wordsOf = (text: string): string[] => text.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? []

function isNamed(place: readonly string[], name: string | undefined): boolean {
  if (name === undefined) return false
  const words = wordsOf(name)
  if (words.length === 0) return false
  return place.some((_, at) => words.every((word, next) => place[at + next] === word))
}
