import type { Plan } from '@rillmark/casebook/plan/plan-file.ts'
import type { ReactNode } from 'react'
import { CalculatorLink } from '../calculators/CalculatorLink.tsx'
import { Bars } from '../kit/Bars.tsx'
import { Disclosure } from '../kit/Disclosure.tsx'

/** In words and bars: what the plan would detect, and what a round without a positive could still hide. */
export function WhatItMisses({ plan }: { readonly plan: Plan }): ReactNode {
  const [first, ...others] = plan.couldHide
  return (
    <div className="stack">
      <p className="plan-hides">{first}</p>
      {others.length > 0 && (
        <ul className="plan-lines">
          {others.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      )}
      <h3 className="plan-small-head">Chance of at least one positive, if colonised were</h3>
      <Bars
        label="Chance to detect"
        lines={plan.scenarios.map(({ id, words, detectionProbability }) => {
          const [name = words, detail = ''] = words.split(': ')
          return {
            id,
            fraction: detectionProbability,
            text: percentText(detectionProbability),
            label: (
              <>
                {name}
                <span className="faint plan-detail">{detail}</span>
              </>
            ),
          }
        })}
      />
      <Disclosure summary="How this is counted">
        <p>
          As if outlets were drawn at random, from the exact hypergeometric distribution. Laboratories found 88.5 % of
          positive proficiency samples (Lucas, Taylor and Fields 2011); what sampling itself misses is not known.
          Heaters and returns together count as one look. The shares supposed colonised are suppositions, not findings.{' '}
          <CalculatorLink id="detection-probability">Formula and sources</CalculatorLink>
        </p>
        <p>
          Points are kept in order of obligation until the budget ends. It is not claimed that no better plan exists.
        </p>
      </Disclosure>
    </div>
  )
}

function percentText(share: number): string {
  if (share > 0.99 && share < 1) return '> 99 %'
  return `${Math.round(share * 100)} %`
}
