import { bytesOfSignature } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the first half of a signature is one',
  layer: 'signatures',
  names: 'entry 9',
  tamper: () => bytesOfSignature(9, (bytes) => bytes.map((byte, at) => (at < 31 ? 0 : at === 31 ? 1 : byte))),
}
