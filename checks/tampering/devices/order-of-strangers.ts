import { moved } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'two entries that did not know of each other exchange their places',
  layer: 'head',
  names: 'known head',
  needs: 'head',
  tamper: () => moved(11, 12),
}
