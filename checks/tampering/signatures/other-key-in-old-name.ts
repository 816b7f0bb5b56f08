import { testKey } from '@rillmark/casebook/testing/test-key.ts'
import { altered, textOf } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'an altered entry is signed by the forger under the name of the old key',
  layer: 'signatures',
  names: 'entry 9',
  tamper: () =>
    altered(9, (entry) => {
      entry.body['volumeMl'] = 2
      entry.signature.value = testKey('forger').signText(textOf(entry))
    }),
}
