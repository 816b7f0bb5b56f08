import { bytesOfSignature } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a signature loses its last byte',
  layer: 'record',
  names: 'signature.value',
  tamper: () => bytesOfSignature(9, (bytes) => bytes.subarray(0, 63)),
}
