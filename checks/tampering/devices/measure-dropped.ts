import { resealed } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'an entry that nobody says they saw is dropped from the end of what was seen',
  layer: 'head',
  names: 'known head',
  needs: 'head',
  tamper: () => resealed((list) => [...list.slice(0, 20), ...list.slice(21)].slice(0, -1)),
}
