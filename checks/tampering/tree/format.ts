import { rejson } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the tree names another format',
  layer: 'tree',
  names: 'format',
  tamper: () =>
    rejson('tree.json', (tree) => {
      tree['format'] = 'rillmark/tree@0'
    }),
}
