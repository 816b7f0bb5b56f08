import type { ReactNode } from 'react'

/** A hazard at the act it belongs to: short, specific, and never in place of local code, product label or a licensed trade. */
export function Caution({ children }: { readonly children: ReactNode }): ReactNode {
  return (
    <div className="caution" role="note" aria-label="Caution">
      <svg className="caution-mark" viewBox="0 0 16 16" aria-hidden="true">
        <path d="M8 1.8 15 14H1z" />
        <path d="M8 6v4M8 11.6v.9" />
      </svg>
      <div>
        <b>Caution.</b> {children}
      </div>
    </div>
  )
}
