import { p256 } from '@noble/curves/nist.js'
import { sha384 } from '@noble/hashes/sha2.js'
import { utf8ToBytes } from '@noble/hashes/utils.js'
import { toBase64url } from '@rillmark/casebook/devices/base64url.ts'
import { testKey } from '@rillmark/casebook/testing/test-key.ts'
import { altered, textOf } from '../forge.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'an entry is signed over SHA-384 cut to length',
  layer: 'signatures',
  names: 'entry 9',
  tamper: () =>
    altered(9, (entry) => {
      const digest = sha384(utf8ToBytes(textOf(entry))).subarray(0, 32)
      entry.signature.value = toBase64url(p256.sign(digest, testKey('phone-1').secret, { prehash: false, lowS: false }))
    }),
}
