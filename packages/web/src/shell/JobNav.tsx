import { Link } from '@tanstack/react-router'
import { type ReactNode, useCallback } from 'react'
import { Mark, type MarkShape } from '../kit/Mark.tsx'
import { useDerived, useInvestigation } from '../store/investigation.tsx'
import { JOB_STEPS, PLACE_WORDS, SIDE_PLACES } from './job.ts'
import { type Standing, STANDING_OF } from './standings.ts'

const SHAPE_OF: Readonly<Record<Standing['is'], MarkShape>> = {
  'not started': 'dash',
  'in hand': 'half',
  waiting: 'dashed',
  done: 'check',
}

/** The job in its order, each step with how it stands. Any order is allowed. */
export function JobNav({ onGo }: { readonly onGo?: () => void }): ReactNode {
  const { id } = useInvestigation()
  const standings = useDerived(
    useCallback((state) => new Map(JOB_STEPS.map((step) => [step, STANDING_OF[step](state)])), []),
  )
  const params = { investigation: id, calculator: undefined }
  return (
    <nav className="job" aria-label="The job">
      <ol>
        {JOB_STEPS.map((step) => (
          <li key={step}>
            <Link
              to={`/i/$investigation/${step}`}
              params={params}
              className="job-link"
              onClick={onGo}
              activeProps={{ 'aria-current': 'page' }}
            >
              <span>{PLACE_WORDS[step]}</span>
              <StandingWords standing={standings.get(step)} />
            </Link>
          </li>
        ))}
      </ol>
      <ul className="job-side">
        {SIDE_PLACES.map((place) => (
          <li key={place}>
            <Link
              to={place === 'record' ? '/i/$investigation/record' : '/i/$investigation/calculators/{-$calculator}'}
              params={params}
              className="job-link"
              onClick={onGo}
              activeProps={{ 'aria-current': 'page' }}
            >
              <span>{PLACE_WORDS[place]}</span>
            </Link>
          </li>
        ))}
      </ul>
    </nav>
  )
}

function StandingWords({ standing }: { readonly standing: Standing | undefined }): ReactNode {
  if (standing === undefined) return null
  const { is, words } = standing
  return (
    <span className="standing" data-is={is}>
      <Mark shape={SHAPE_OF[is]} />
      <span>{words ?? is}</span>
      {words !== undefined && <span className="visually-hidden">, {is}</span>}
    </span>
  )
}
