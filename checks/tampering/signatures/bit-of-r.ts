import { bytesOfSignature } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'one bit of the first half of a signature is flipped',
  layer: 'signatures',
  names: 'entry 9',
  tamper: () => bytesOfSignature(9, (bytes) => bytes.with(5, (bytes[5] ?? 0) ^ 1)),
}
