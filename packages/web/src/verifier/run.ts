import { verifyFiles } from '@rillmark/exchange/verify/verify-files.ts'
import { webCryptoCheck } from '@rillmark/exchange/verify/web-crypto-check.ts'
import type { VerifyAnswer, VerifyRequest } from './messages.ts'

/** Verifies what was brought and tells how far it is; the same in a worker and in the page itself. */
export async function runVerification(
  { files, head }: VerifyRequest,
  answer: (told: VerifyAnswer) => void,
): Promise<void> {
  try {
    const told = (doing: string, done: number, of: number): void => answer({ doing, done, of })
    answer({ verdicts: await verifyFiles(files, { head, checkSignature: webCryptoCheck(), told }) })
  } catch (error) {
    answer({ failed: error instanceof Error ? error.message : String(error) })
  }
}
