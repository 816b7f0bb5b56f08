import { bytesOfSignature } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a signature is ones',
  layer: 'signatures',
  names: 'entry 9',
  tamper: () => bytesOfSignature(9, () => new Uint8Array(64).fill(0xff)),
}
