import type { CheckSignature } from '@rillmark/casebook/devices/signed-text.ts'

type Signed = Parameters<CheckSignature>[0]

/** Checks one signature, at once or later: browsers and Node have fast means of their own, some of which take their time. */
export type SignatureCheck = (signed: Signed) => boolean | Promise<boolean>

export interface SignatureJob {
  readonly sequence: number
  readonly device: string
  readonly signed: Signed
}

const AT_ONCE = 256

/** The jobs whose signature does not hold. Worked off in portions, so that progress can be told between them. */
export async function failedJobs(
  jobs: readonly SignatureJob[],
  { check, told }: { check: SignatureCheck; told: (done: number, of: number) => void },
): Promise<SignatureJob[]> {
  const failed: SignatureJob[] = []
  for (let from = 0; from < jobs.length; from += AT_ONCE) {
    const portion = jobs.slice(from, from + AT_ONCE)
    const held = await Promise.all(portion.map(async ({ signed }) => check(signed)))
    failed.push(...portion.filter((_, index) => held[index] !== true))
    told(Math.min(from + AT_ONCE, jobs.length), jobs.length)
  }
  return failed
}
