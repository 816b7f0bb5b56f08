import type { ReactNode } from 'react'

export interface BarLine {
  readonly id: string
  readonly label: ReactNode
  /** 0 to 1. */
  readonly fraction: number
  /** The number in words, beside the bar. */
  readonly text: string
  /** Draws a fine interval over the bar. */
  readonly interval?: { readonly lower: number; readonly upper: number } | undefined
}

/** Named fractions one below the other, each with its number and, where known, its interval. */
export function Bars({ lines, label }: { readonly lines: readonly BarLine[]; readonly label: string }): ReactNode {
  return (
    <ul className="bars" aria-label={label}>
      {lines.map((line) => (
        <li key={line.id} className="bars-line">
          <span className="bars-label">{line.label}</span>
          <span className="bars-track" aria-hidden="true">
            <span className="bars-fill" style={{ width: percent(line.fraction) }} />
            {line.interval !== undefined && (
              <span
                className="bars-interval"
                style={{
                  left: percent(line.interval.lower),
                  width: percent(line.interval.upper - line.interval.lower),
                }}
              />
            )}
          </span>
          <span className="bars-text mono">{line.text}</span>
        </li>
      ))}
    </ul>
  )
}

function percent(fraction: number): string {
  return `${Math.min(1, Math.max(0, fraction)) * 100}%`
}
