import { inReadersUnits } from '@rillmark/casebook/conditions/in-readers-units.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import type { ReactNode } from 'react'
import { Disclosure } from '../kit/Disclosure.tsx'
import { KeyValue } from '../kit/KeyValue.tsx'
import { usePreferences } from '../store/preferences.tsx'
import type { ShownPrediction } from './use-prediction.ts'

const percent = (fraction: number): string => `${(Math.abs(fraction) * 100).toPrecision(2)} %`

/** How sound the working is: what was lost on the way, whether the day repeated itself, and the cautions of the model. */
export function HowWorkedOut({ shown }: { readonly shown: ShownPrediction }): ReactNode {
  const { units } = usePreferences()
  const { balance, daysUntilRepeating, repeats, seed, cautions } = shown.conditions
  return (
    <Disclosure summary="How it was worked out">
      <KeyValue
        facts={[
          {
            key: 'Days until it repeats',
            value: repeats ? counted(daysUntilRepeating, 'day') : `not within ${counted(daysUntilRepeating, 'day')}`,
          },
          { key: 'Water not accounted for', value: percent(balance.massErrorFraction) },
          { key: 'Heat not accounted for', value: percent(balance.energyErrorFraction) },
          { key: 'Seed of the draws', value: String(seed) },
        ]}
      />
      <ul className="predicted-cautions">
        {cautions.map((caution) => (
          <li key={caution}>{inReadersUnits(caution, units)}</li>
        ))}
      </ul>
    </Disclosure>
  )
}
