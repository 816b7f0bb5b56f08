import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the root is written in capitals',
  layer: 'tree',
  names: 'root',
  tamper: () =>
    rejson('tree.json', (tree) => {
      tree['root'] = String(tree['root']).toUpperCase()
    }),
}
