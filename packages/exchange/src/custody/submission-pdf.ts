import type { ChainLine } from '@rillmark/casebook/custody/chain-lines.ts'
import { chainTemperature } from '@rillmark/casebook/custody/chain-temperature.ts'
import { CONDITIONS } from '@rillmark/casebook/custody/kinds.ts'
import { type DisplayUnits, METRIC_UNITS } from '@rillmark/casebook/units/display-units.ts'
import { wallClock } from '@rillmark/casebook/units/local-time.ts'
import { dataMatrixSvg } from '../plan/data-matrix.ts'
import { compileTypst } from '../typst/compile.ts'
import type { Submission } from './submission.ts'

export interface SubmissionPaper {
  readonly paper?: 'a4' | 'letter' | undefined
  /** a Data Matrix beside each label, for a laboratory that scans */
  readonly codes?: boolean | undefined
  /** units of the reader; those of the record unless told */
  readonly units?: DisplayUnits | undefined
}

/** The submission sheet as it travels with the box: samples, the chain of custody so far, blanks to sign for the rest of the way. */
export function submissionPdf(
  submission: Submission,
  { paper = 'a4', codes = false, units = METRIC_UNITS }: SubmissionPaper = {},
): Uint8Array {
  const { samples, chain, asOf, ...head } = submission
  const data = {
    ...head,
    paper: paper === 'letter' ? 'us-letter' : 'a4',
    samples: samples.map((sample) => ({ ...sample, code: codes ? dataMatrixSvg(sample.label) : undefined })),
    chain: chain.map((line) => lineData(line, units)),
    conditions: CONDITIONS,
  }
  return compileTypst({ template: 'submission.typ', data, asOf })
}

function lineData(line: ChainLine, units: DisplayUnits): object {
  const { at, offset, what, from, to, sealIntact, signed, notes } = line
  const person = (one: { name: string; role: string } | undefined): string | undefined =>
    one === undefined ? undefined : `${one.name}, ${one.role}`
  return {
    at: wallClock({ instant: at, offset }),
    what,
    from: person(from),
    to: person(to),
    seal: sealIntact === undefined ? undefined : sealIntact ? 'intact' : 'NOT intact',
    temperature: chainTemperature(line, units),
    signed,
    notes,
  }
}
