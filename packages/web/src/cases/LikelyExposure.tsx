import type { LikelyExposure as Likely } from '@rillmark/casebook/cases/likely-exposure.ts'
import type { ReactNode } from 'react'
import { CalculatorLink } from '../calculators/CalculatorLink.tsx'

/** When one source would have exposed all cases at one time, and whether the onsets speak for that at all. */
export function LikelyExposure({ likely }: { readonly likely: Likely }): ReactNode {
  return (
    <p className="likely-exposure">
      {sentence(likely)}{' '}
      <CalculatorLink id="exposure-time" figures={likely.input}>
        How it is worked out
      </CalculatorLink>
    </p>
  )
}

function sentence({ cases, apartDays, day, from, to, level, fits }: Likely): ReactNode {
  if (fits === 'no')
    return `The onsets lie ${apartDays} days apart, too far for one exposure at one time: look for a source that lasted, or for more than one.`
  const time = (
    <>
      <strong>{day}</strong>, between {from} and {to} ({Math.round(level * 100)} % interval, from the onsets alone).
    </>
  )
  if (fits === 'doubtful')
    return (
      <>
        One time of exposure hardly explains onsets {apartDays} days apart: think of a source that lasted. Had all{' '}
        {cases} been exposed at one time, it was most likely on {time}
      </>
    )
  return (
    <>
      If all {cases} were exposed at one time, it was most likely on {time} A source that lasted, as a building’s water
      often does, would say otherwise.
    </>
  )
}
