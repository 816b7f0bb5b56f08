import type { ReactNode } from 'react'

/** Words for a screen reader only. */
export function VisuallyHidden({ children }: { readonly children: ReactNode }): ReactNode {
  return <span className="visually-hidden">{children}</span>
}
