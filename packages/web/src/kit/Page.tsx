import type { ReactNode } from 'react'

/** The margins of a screen that is one column. `wide` for tables and drawings. */
export function Page({ children, wide }: { readonly children: ReactNode; readonly wide?: boolean }): ReactNode {
  return <div className={wide === true ? 'page page-wide' : 'page'}>{children}</div>
}
