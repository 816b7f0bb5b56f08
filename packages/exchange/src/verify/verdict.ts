import type { Issue } from '@rillmark/science/catalogue/issue.ts'

/** What is checked, from the outside in. Each layer catches its own way of tampering. */
export const LAYERS = {
  archive: 'ZIP archive',
  manifest: 'list of contents',
  files: 'hashes of files',
  record: 'chain of entries',
  signatures: 'signatures',
  devices: 'devices',
  keys: 'list of keys',
  tree: 'root of the tree',
  tables: 'tables',
  attachments: 'pictures',
  reports: 'reports',
  verifier: 'verifier',
  receipt: 'receipt',
  head: 'known head',
} as const

export type Layer = keyof typeof LAYERS

/** Something that does not hold, in which layer and where. */
export interface Finding extends Issue {
  readonly layer: Layer
}

/** What a verified file turned out to be. */
export interface Facts {
  readonly kind: 'package' | 'receipt'
  readonly investigation?: string
  readonly title?: string
  readonly sample?: string
  readonly entries?: number
  readonly head?: string
  readonly root?: string
  readonly signed?: number
  readonly unsigned?: number
  readonly devices?: number
  readonly revoked?: number
  readonly pictures?: number
  /** who gave a receipt, as far as it says, when, and with which key */
  readonly givenBy?: string
  readonly givenAt?: string
  readonly givenKey?: string
}

export interface Verdict {
  readonly sound: boolean
  readonly facts: Facts
  readonly findings: readonly Finding[]
  /** what could not be checked or deserves a look, though nothing is broken */
  readonly cautions: readonly string[]
  /** layers that were looked at and hold */
  readonly holds: readonly Layer[]
}

/** Issues as findings of a layer. */
export function foundIn(layer: Layer, issues: readonly Issue[]): Finding[] {
  return issues.map((found) => ({ layer, ...found }))
}

export function verdictOf(parts: Omit<Verdict, 'sound' | 'holds'> & { readonly looked: ReadonlySet<Layer> }): Verdict {
  const { looked, ...rest } = parts
  const broken = new Set(parts.findings.map(({ layer }) => layer))
  const holds = (Object.keys(LAYERS) as Layer[]).filter((layer) => looked.has(layer) && !broken.has(layer))
  return { sound: parts.findings.length === 0, ...rest, holds }
}
