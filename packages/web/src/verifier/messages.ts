import type { Head } from '@rillmark/casebook/chain/link.ts'
import type { GivenFile, NamedVerdict } from '@rillmark/exchange/verify/verify-files.ts'

export interface VerifyRequest {
  readonly files: readonly GivenFile[]
  readonly head: Head | undefined
}

export type VerifyAnswer =
  | { readonly doing: string; readonly done: number; readonly of: number }
  | { readonly verdicts: readonly NamedVerdict[] }
  | { readonly failed: string }
