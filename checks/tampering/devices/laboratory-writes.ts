import { signedBy, nextBy, unsignedNext, NOTE, joinOf, appended } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a laboratory’s link writes more than what it received',
  layer: 'devices',
  names: 'its role is laboratory',
  tamper: () =>
    appended(
      nextBy('laboratory-link-1', joinOf('laboratory-link-1', { role: 'laboratory', by: 'laboratory-link-1' })),
      signedBy('laboratory-link-1', {
        ...unsignedNext('laboratory-link-1', NOTE),
        deviceSequence: 2,
        id: '00000000-0000-8000-8000-000000000003',
      }),
    ),
}
