import type { ReactNode } from 'react'
import { Button } from './Button.tsx'

export interface ProgressProps {
  /** What is being done: 'Reading results.xlsx'. */
  readonly label: string
  /** 0 to 1 where known. */
  readonly fraction?: number | undefined
  readonly detail?: string | undefined
  readonly onCancel?: (() => void) | undefined
}

/** Long work under way: what, how far, and a way to stop it. */
export function Progress(props: ProgressProps): ReactNode {
  const known = props.fraction !== undefined
  return (
    <div className="progress" role="status">
      <div className="progress-words">
        <span>{props.label}</span>
        {props.detail !== undefined && <span className="faint">{props.detail}</span>}
        {props.onCancel !== undefined && <Button onPress={props.onCancel}>Stop</Button>}
      </div>
      <div
        className="meter-track"
        role="progressbar"
        aria-label={props.label}
        aria-valuemin={0}
        aria-valuemax={100}
        aria-valuenow={known ? Math.round((props.fraction ?? 0) * 100) : undefined}
      >
        <span
          className={known ? undefined : 'progress-unknown'}
          style={known ? { width: `${(props.fraction ?? 0) * 100}%` } : undefined}
        />
      </div>
    </div>
  )
}
