import type { ReadingValue } from '@rillmark/casebook/fieldwork/kinds.ts'
import { neutralizerCheck, type NeutralizerVerdict } from '@rillmark/casebook/fieldwork/neutralizer-check.ts'
import type { StopVisit } from '@rillmark/casebook/fieldwork/state.ts'
import type { ReactNode } from 'react'
import { CalculatorLink } from '../calculators/CalculatorLink.tsx'
import { Note } from '../kit/Note.tsx'
import { localDay } from '../store/local-time.ts'

interface Measured {
  readonly visit: StopVisit | undefined
  readonly reading: ReadingValue
  readonly quantity: 'free-chlorine' | 'total-chlorine'
}

interface DoseOf {
  readonly label: string
  readonly doseMl: number
  readonly verdict: NeutralizerVerdict
  /** what it was worked out from */
  readonly figures: object
}

function dosesAt({ visit, reading, quantity }: Measured): readonly DoseOf[] {
  return (visit?.samples ?? []).flatMap(({ body: { label, neutralizer, volumeMl } }): DoseOf[] => {
    if (neutralizer === undefined || volumeMl === undefined) return []
    const verdict = neutralizerCheck({
      dose: neutralizer,
      sampleVolumeMl: volumeMl,
      residual: reading,
      residualKind: quantity,
      on: localDay(),
    })
    const figures = {
      residualMgPerL: reading.kind === 'value' ? reading.value : reading.limit,
      residualKind: quantity,
      sampleVolumeMl: volumeMl,
      solutionNormality: neutralizer.solutionNormality,
      solutionVolumeMl: neutralizer.solutionVolumeMl,
    }
    return [{ label, doseMl: neutralizer.solutionVolumeMl, verdict, figures }]
  })
}

/** Bottles of this stop whose neutralizer does not cover the residual, each with the words for the record. */
export function shortDoses(measured: Measured): readonly { readonly label: string; readonly words: string }[] {
  return dosesAt(measured)
    .filter(({ verdict }) => verdict.covers === 'short')
    .map((dose) => ({ label: dose.label, words: doseWords(dose) }))
}

/** What the residual measured here means for the neutralizer already in the bottles. */
export function DoseVerdicts(props: Measured): ReactNode {
  return dosesAt(props).map((dose) => (
    <Note key={dose.label} kind={dose.verdict.covers === 'short' ? 'warn' : 'plain'}>
      {doseWords(dose)}
      {dose.verdict.covers === 'short' &&
        ` Add the missing ${missing(dose)} mL now and mix; the record says it was short at first.`}{' '}
      <CalculatorLink id="neutralizer" figures={dose.figures}>
        Working
      </CalculatorLink>
    </Note>
  ))
}

function doseWords({ label, doseMl, verdict }: DoseOf): string {
  const covers = `${label}: ${doseMl} mL covers ${verdict.capacityMgPerL.toFixed(2)} mg/L`
  if (verdict.covers === 'covered') return `${covers}, enough.`
  if (verdict.covers === 'not known') return `${covers}; whether that is enough is not known.`
  return `${covers}, not enough: ${upTo(verdict.requiredVolumeMl ?? 0)} mL is needed.`
}

/** Rounded up, so that the dose said is never less than the dose needed. */
const upTo = (volumeMl: number): string => (Math.ceil(volumeMl * 100 - 1e-9) / 100).toFixed(2)

const missing = ({ doseMl, verdict }: DoseOf): string => upTo(Math.max(0, (verdict.requiredVolumeMl ?? 0) - doseMl))
