import { bytesOfSignature } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the second half of a signature is zero',
  layer: 'signatures',
  names: 'entry 9',
  tamper: () => bytesOfSignature(9, (bytes) => bytes.map((byte, at) => (at < 32 ? byte : 0))),
}
