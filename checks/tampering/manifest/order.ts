import { retext } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a manifest is written in another order',
  layer: 'manifest',
  names: 'the same said otherwise',
  tamper: () =>
    retext(
      'manifest.json',
      (before) =>
        `${JSON.stringify(Object.fromEntries(Object.entries(JSON.parse(before) as object).toReversed()), null, 2)}\n`,
    ),
}
