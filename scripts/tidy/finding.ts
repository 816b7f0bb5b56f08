/** One breach of a house rule: where it is, which rule, what was found, and how to mend it. */
export type Finding = {
  readonly file: string
  readonly line: number
  readonly rule: string
  readonly found: string
  readonly mend: string
}

/** Writes findings one a line; an empty text means the rule holds. */
export function describeFindings(findings: readonly Finding[]): string {
  return findings
    .map((each) => `${each.file}:${each.line} [${each.rule}] ${each.found}. Mend: ${each.mend}.`)
    .join('\n')
}
