import { bytesOfSignature } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the first half of a signature is zero',
  layer: 'signatures',
  names: 'entry 9',
  tamper: () =>
    bytesOfSignature(9, (bytes) => new Uint8Array(64).fill(0, 0, 32).map((_, at) => (at < 32 ? 0 : (bytes[at] ?? 0)))),
}
