import { relinked } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the time of receipt of one link is altered',
  layer: 'record',
  names: 'entry 12',
  tamper: () => relinked((list) => Object.assign(list[11] ?? {}, { received: '2026-03-02T11:00:00.000Z' })),
}
