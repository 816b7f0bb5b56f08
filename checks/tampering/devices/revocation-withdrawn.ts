import { nextBy, NOTE, appended } from '../forge.ts'
import { type PackageWay, entries } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the revocation is withdrawn and the device writes on',
  layer: 'devices',
  names: 'not revoked',
  tamper: () =>
    appended(
      nextBy('desk-1', {
        kind: 'entry.withdrawn',
        body: {},
        corrects: { entry: String(entries[15]?.id), reason: 'found again' },
      }),
      nextBy('phone-2', NOTE),
    ),
}
