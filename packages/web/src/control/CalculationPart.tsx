import { given } from '@rillmark/casebook/entry/given.ts'
import type { MeasureKind } from '@rillmark/casebook/control/measure-progress.ts'
import type { Amount } from '@rillmark/casebook/control/target-words.ts'
import { MEASURES_REFERENCE } from '@rillmark/casebook/control/reference-measures.ts'
import { findCalculation } from '@rillmark/science/catalogue/catalogue.ts'
import { type ReactNode, useState } from 'react'
import { CalculatorLink } from '../calculators/CalculatorLink.tsx'
import { Reckoner } from '../calculators/Reckoner.tsx'
import { ResultValues } from '../calculators/ResultBody.tsx'
import { Button } from '../kit/Button.tsx'
import { Caution } from '../kit/Caution.tsx'
import { Disclosure } from '../kit/Disclosure.tsx'
import { Tabs } from '../kit/Tabs.tsx'
import type { RecordedCalculation } from './recorded-calculation.ts'
import { calculationsFor } from './calculations-for.ts'

/** The reckoning a measure rests on: what was recorded with it, and the calculations it calls for. */
export function CalculationPart(props: {
  readonly measure: MeasureKind
  readonly target?: Amount | undefined
  readonly recorded?: RecordedCalculation | undefined
  readonly onRecord?: ((calculation: RecordedCalculation) => void) | undefined
}): ReactNode {
  const { measure, target, recorded, onRecord } = props
  const offered = calculationsFor(measure)
  const [picked, setPicked] = useState<string>()
  const selected = offered.find(({ id }) => id === picked)?.id ?? offered[0]?.id
  if (offered.length === 0 && recorded === undefined) return null
  return (
    <div className="stack">
      {recorded !== undefined && <Recorded recorded={recorded} />}
      {onRecord !== undefined && selected !== undefined && (
        <Disclosure summary={recorded === undefined ? 'Reckon it' : 'Reckon again'}>
          <Tabs label="calculation" tabs={offered} selected={selected} onSelect={setPicked}>
            {selected === 'dechlorination' && <Caution>{MEASURES_REFERENCE.discharge.text}</Caution>}
            <Reckoner
              key={selected}
              id={selected}
              start={startOf(target)}
              act={({ input, result }) => (
                <div>
                  <Button onPress={() => onRecord({ id: selected, input, result })}>
                    Record this with the measure
                  </Button>
                </div>
              )}
            />
          </Tabs>
        </Disclosure>
      )}
    </div>
  )
}

function Recorded({ recorded }: { readonly recorded: RecordedCalculation }): ReactNode {
  const calculation = findCalculation(recorded.id)
  if (calculation === undefined)
    return <p className="quiet">Recorded by {recorded.id}, which this program does not carry.</p>
  return (
    <div>
      <p>
        <b>{calculation.title}</b>, recorded with the measure:
      </p>
      <ResultValues calculation={calculation} result={{ ...(recorded.result as object) }} />
      <CalculatorLink id={calculation.id} figures={recorded.input}>
        Working and sources
      </CalculatorLink>
    </div>
  )
}

/** What the target of the measure already says of a calculation's input. */
function startOf(target: Amount | undefined): object | undefined {
  if (target?.unit === 'mg/L')
    return { targetMgPerL: target.value, residualMgPerL: target.value, ...given({ minutes: target.minutes }) }
  if (target?.quantity === 'temperature') return { temperatureC: target.value, ...given({ minutes: target.minutes }) }
  return target?.quantity === 'flush time' ? given({ minutes: target.minutes }) : undefined
}
