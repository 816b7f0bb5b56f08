import { bytesOfSignature } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'one bit of the second half of a signature is flipped',
  layer: 'signatures',
  names: 'entry 9',
  tamper: () => bytesOfSignature(9, (bytes) => bytes.with(63, (bytes[63] ?? 0) ^ 1)),
}
