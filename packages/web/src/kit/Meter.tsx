import type { ReactNode } from 'react'

export interface MeterProps {
  readonly label: string
  readonly fraction: number
  /** What the level means, in words; always shown. */
  readonly text: string
  readonly kind?: 'plain' | 'warn' | 'bad' | undefined
}

/** A level with its meaning in words: how full, how much left. */
export function Meter(props: MeterProps): ReactNode {
  const fraction = Math.min(1, Math.max(0, props.fraction))
  return (
    <div className={`meter meter-${props.kind ?? 'plain'}`}>
      <div className="meter-words">
        <span>{props.label}</span>
        <b>{props.text}</b>
      </div>
      <div
        className="meter-track"
        role="meter"
        aria-label={props.label}
        aria-valuenow={Math.round(fraction * 100)}
        aria-valuemin={0}
        aria-valuemax={100}
        aria-valuetext={props.text}
      >
        <span style={{ width: `${fraction * 100}%` }} />
      </div>
    </div>
  )
}
