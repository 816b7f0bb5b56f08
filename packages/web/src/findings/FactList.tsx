import type { Focus } from '@rillmark/casebook/findings/focus-rows.ts'
import type { Fact } from '@rillmark/casebook/findings/headline.ts'
import type { ReactNode } from 'react'

/** What the counts show, a line each; pressing one lights up the samples it rests on. */
export function FactList({
  facts,
  focus,
  onFocus,
}: {
  readonly facts: readonly Fact[]
  readonly focus: Focus | undefined
  readonly onFocus: (focus: Focus | undefined) => void
}): ReactNode {
  if (facts.length === 0) return null
  return (
    <ul className="fact-list" aria-label="What the counts show">
      {facts.map(({ words, labels }) => {
        const on = focus?.words === words
        return (
          <li key={words}>
            <button
              type="button"
              className="fact-line"
              aria-pressed={on}
              onClick={() => onFocus(on ? undefined : { kind: 'samples', words, labels })}
            >
              {words}
            </button>
          </li>
        )
      })}
    </ul>
  )
}
