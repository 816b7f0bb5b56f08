import type { ReactNode } from 'react'
import { Mark, type MarkShape } from './Mark.tsx'

export interface TagProps {
  readonly shape: MarkShape
  readonly children: ReactNode
  readonly kind?: 'plain' | 'accent' | 'warn' | 'bad' | 'faint' | undefined
}

/** A state: a shape and a word, so it never rests on colour. */
export function Tag({ shape, children, kind = 'plain' }: TagProps): ReactNode {
  return (
    <span className={`tag tag-${kind}`}>
      <Mark shape={shape} />
      <span>{children}</span>
    </span>
  )
}
