import type { ReactNode } from 'react'

/** Buttons side by side, the primary one first; they stack to full width on a phone. */
export function ButtonRow({ children, end }: { readonly children: ReactNode; readonly end?: boolean }): ReactNode {
  return <div className={end === true ? 'button-row button-row-end' : 'button-row'}>{children}</div>
}
