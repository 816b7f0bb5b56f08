import type { ReactNode } from 'react'

export type MarkShape =
  | 'none'
  | 'open'
  | 'half'
  | 'full'
  | 'dashed'
  | 'cross'
  | 'check'
  | 'triangle'
  | 'square'
  | 'dash'
  | 'diamond'

const SHAPES: Record<MarkShape, ReactNode> = {
  none: null,
  open: <circle cx="6" cy="6" r="4.2" />,
  half: (
    <>
      <circle cx="6" cy="6" r="4.2" />
      <path className="mark-fill" d="M6 1.8a4.2 4.2 0 0 1 0 8.4z" />
    </>
  ),
  full: <circle className="mark-fill" cx="6" cy="6" r="4.4" />,
  dashed: <circle cx="6" cy="6" r="4.2" strokeDasharray="2 1.77" />,
  cross: <path d="m2.4 2.4 7.2 7.2m0-7.2L2.4 9.6" />,
  check: <path d="m1.8 6.4 2.9 2.9 5.5-6.6" />,
  triangle: <path d="M6 1.6 11 10.4H1z" />,
  square: <path d="M2 2h8v8H2z" />,
  dash: <path d="M2.5 6h7" />,
  diamond: <path d="M6 1.2 10.8 6 6 10.8 1.2 6z" />,
}

/** The small drawn mark before a state's word. Never alone. */
export function Mark({ shape }: { readonly shape: MarkShape }): ReactNode {
  return (
    <svg className="mark" viewBox="0 0 12 12" aria-hidden="true">
      {SHAPES[shape]}
    </svg>
  )
}
