import { wallClock } from '@rillmark/casebook/units/local-time.ts'
import { Link } from '@tanstack/react-router'
import { type ReactNode, useCallback } from 'react'
import { Button } from '../kit/Button.tsx'
import { Section } from '../kit/Section.tsx'
import { useDerived, useInvestigation } from '../store/investigation.tsx'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'

/** What this investigation has recorded of one calculation. */
export function Recorded(props: { readonly id: string; readonly onTake: (input: unknown) => void }): ReactNode {
  const { id: investigation } = useInvestigation()
  const { id, onTake } = props
  const pick = useCallback(
    ({ brief }: InvestigationState) => brief.calculations.filter(({ body }) => body.id === id).toReversed(),
    [id],
  )
  const recorded = useDerived(pick)
  if (recorded.length === 0) return null
  return (
    <Section title="Recorded in this investigation">
      <ul className="calc-list">
        {recorded.map((entry) => (
          <li key={entry.id} className="calc-recorded">
            <Link to="/i/$investigation/record" params={{ investigation }} search={{ show: entry.id }}>
              {wallClock(entry)} by {entry.author}
            </Link>
            <Button kind="text" onPress={() => onTake(entry.body.input)}>
              Take these figures
            </Button>
          </li>
        ))}
      </ul>
    </Section>
  )
}
