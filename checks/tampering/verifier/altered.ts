import { strToU8 } from 'fflate'
import { behindManifest } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'the verifier is altered behind the back of the manifest',
  layer: 'files',
  names: 'verify.html',
  tamper: () =>
    behindManifest((files) => {
      files['verify.html'] = strToU8('<!doctype html>Sound\n')
    }),
}
