import type { Made } from './document-kind.ts'

export interface WorkerRequest {
  readonly job: number
  readonly name: string
  readonly investigation: string
  readonly query: unknown
}

export type WorkerAnswer =
  | { readonly job: number; readonly made: Made }
  | { readonly job: number; readonly failed: string }
