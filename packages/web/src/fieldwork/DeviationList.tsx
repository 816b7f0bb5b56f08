import { deviationsOf } from '@rillmark/casebook/fieldwork/deviations.ts'
import { type ReactNode, useMemo } from 'react'
import { Section } from '../kit/Section.tsx'
import { useInvestigation } from '../store/investigation.tsx'

/** What went otherwise than planned in a round. */
export function DeviationList({
  round,
  onGo,
}: {
  readonly round: string
  readonly onGo: (stop: string) => void
}): ReactNode {
  const { state, version } = useInvestigation()
  // oxlint-disable-next-line react-hooks/exhaustive-deps -- the state is extended in place; the version tells when
  const deviations = useMemo(() => deviationsOf(state, round), [version, round])
  if (deviations.length === 0) return null
  return (
    <Section title="Deviations" aside={deviations.length}>
      <ul className="field-lines">
        {deviations.map((one) => (
          <li key={one.id}>
            <button type="button" className="field-deviation" onClick={() => onGo(one.stop)}>
              <b>{one.reason}</b>{' '}
              {[one.stopTitle, one.step, one.label, one.text].filter((part) => part !== undefined).join(' · ')}
            </button>
          </li>
        ))}
      </ul>
    </Section>
  )
}
