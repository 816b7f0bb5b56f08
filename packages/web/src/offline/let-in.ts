import { keep, readKept } from '../store/keep.ts'

const KEY = 'not-let-in'

/** Whether the server let this device in when it last said anything of it; kept, because the next opening may be without a network. */
export function wasLetIn(): boolean {
  return readKept(KEY) !== true
}

export function noteLetIn(letIn: boolean): void {
  if (letIn !== wasLetIn()) keep(KEY, !letIn)
}
