import type { HandOverSignature } from '@rillmark/casebook/custody/kinds.ts'
import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'

/** How a receiver signs, while the form is open. */
export interface SigningDraft {
  readonly way: 'drawn' | 'device' | 'paper' | 'none' | ''
  readonly picture: Blob | undefined
  readonly device: string
}

export const UNSIGNED: SigningDraft = { way: '', picture: undefined, device: '' }

/** What a signature still lacks. */
export function signingIssues({ way, picture, device }: SigningDraft): Issue[] {
  const lacks = (expected: string): Issue[] => [issue('signature', { expected, received: undefined })]
  if (way === '') return lacks('how the receiver says that they took it')
  if (way === 'drawn' && picture === undefined) return lacks('a signature on the glass')
  if (way === 'paper' && picture === undefined) return lacks('a photo of the signed form')
  return way === 'device' && device === '' ? lacks('the device of the receiver') : []
}

/** The signature as the entry keeps it, once its picture is kept; nothing where nobody signed. */
export function signatureOf(draft: SigningDraft, sha256: string): { signedBy?: HandOverSignature } {
  if (draft.way === 'drawn' || draft.way === 'paper') return { signedBy: { way: draft.way, sha256 } }
  return draft.way === 'device' ? { signedBy: { way: 'device', device: draft.device } } : {}
}
