import type { Link } from '@rillmark/casebook/chain/link.ts'
import { type Expectation, type Verdict, verifyChain } from '@rillmark/casebook/chain/verify.ts'
import { fromBase64url } from '@rillmark/casebook/devices/base64url.ts'
import type { DeviceKey } from '@rillmark/casebook/devices/kinds.ts'
import { checkSignature } from '@rillmark/casebook/devices/signature.ts'
import { type CheckSignature, thumbprint } from '@rillmark/casebook/devices/signed-text.ts'

/**
 * The verdict of `verifyChain` with signatures, sooner: the walk notes what has to be checked, and the browser's own cryptography checks it.
 * Where that is missing (no secure address) or finds anything amiss, the plain check is asked, and its words count.
 */
export async function verifyQuickly(links: readonly Link[], expected: Expectation): Promise<Verdict> {
  const plainly = (): Verdict => verifyChain(links, { ...expected, checkSignature })
  const { subtle } = crypto as { subtle?: SubtleCrypto }
  if (subtle === undefined) return plainly()
  const noted: Signed[] = []
  const note: CheckSignature = (signed) => {
    noted.push(signed)
    return true
  }
  const verdict = verifyChain(links, { ...expected, checkSignature: note })
  // a fault found on the way may lie behind one that only the signatures show
  return verdict.sound && (await allHold(noted, subtle)) ? verdict : plainly()
}

type Signed = Parameters<CheckSignature>[0]

const CURVE = { name: 'ECDSA', namedCurve: 'P-256' } as const
const SIGNING = { name: 'ECDSA', hash: 'SHA-256' } as const

async function allHold(noted: readonly Signed[], subtle: SubtleCrypto): Promise<boolean> {
  const keys = new Map<string, Promise<CryptoKey>>()
  const imported = (key: DeviceKey): Promise<CryptoKey> => {
    const name = thumbprint(key)
    const known = keys.get(name) ?? subtle.importKey('jwk', { ...key }, CURVE, false, ['verify'])
    keys.set(name, known)
    return known
  }
  try {
    const held = await Promise.all(
      noted.map(async ({ text, value, key }) => {
        const signature = fromBase64url(value)
        if (signature === undefined) return false
        const said = new TextEncoder().encode(text)
        return subtle.verify(SIGNING, await imported(key), Uint8Array.from(signature), said)
      }),
    )
    return held.every(Boolean)
  } catch {
    return false
  }
}
