import type { ReactNode } from 'react'

export interface Problem {
  readonly path: string
  readonly expected: string
  readonly received?: unknown
}

export interface ProblemListProps {
  readonly problems: readonly Problem[]
  /** Head line; by default counts the problems. */
  readonly title?: string | undefined
  /** Takes the reader to the place of a problem. */
  readonly onJump?: ((problem: Problem) => void) | undefined
  readonly kind?: 'bad' | 'warn' | undefined
}

/** More than this nobody reads in one go; the rest is counted. */
const MOST_SHOWN = 100

/** Everything found wrong, all at once: where, what was expected, what was received. */
export function ProblemList(props: ProblemListProps): ReactNode {
  const { problems, onJump } = props
  if (problems.length === 0) return null
  const title = props.title ?? (problems.length === 1 ? 'One thing to settle' : `${problems.length} things to settle`)
  return (
    <section
      className={`problems problems-${props.kind ?? 'bad'}`}
      aria-label={title}
      role={props.kind === 'warn' ? undefined : 'alert'}
    >
      <h3>{title}</h3>
      <ol>
        {problems.slice(0, MOST_SHOWN).map((problem, index) => (
          // oxlint-disable-next-line react/no-array-index-key -- the same path may be wrong in two ways
          <li key={`${problem.path} ${index}`}>
            <span className="problem-path mono">{placeOf(problem.path)}</span>
            <span>
              expected {problem.expected}
              {problem.received !== undefined && <span className="quiet">; received {wordsFor(problem.received)}</span>}
            </span>
            {onJump !== undefined && (
              <button type="button" className="button button-text" onClick={() => onJump(problem)}>
                Go there<span className="visually-hidden">: {placeOf(problem.path)}</span>
              </button>
            )}
          </li>
        ))}
      </ol>
      {problems.length > MOST_SHOWN && <p>And {problems.length - MOST_SHOWN} more.</p>}
    </section>
  )
}

/** Where in an entry, as one would say it: `body.onsetDate` is the onset date, `body.rows.3` the fourth of the rows. */
function placeOf(path: string): string {
  const inside = /^(.*?)\bbody(?:\.(.*))?$/.exec(path)
  if (inside === null) return path
  const words = (inside[2] ?? '')
    .split('.')
    .map((step) =>
      /^\d+$/.test(step) ? `${Number(step) + 1}` : step.replace(/([a-z])([A-Z])/g, '$1 $2').toLowerCase(),
    )
  return `${inside[1] ?? ''}${words.join(' ')}`.trim()
}

function wordsFor(received: unknown): string {
  const text = typeof received === 'string' ? received : JSON.stringify(received)
  return text === undefined ? 'nothing' : text.length > 120 ? `${text.slice(0, 117)}…` : text
}
