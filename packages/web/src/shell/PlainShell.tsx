import type { ReactNode } from 'react'
import { TopBar } from './TopBar.tsx'

/** The shell outside an investigation: start page, calculators. */
export function PlainShell({
  children,
  where,
}: {
  readonly children: ReactNode
  readonly where?: ReactNode
}): ReactNode {
  return (
    <div className="plain">
      <TopBar where={where} />
      <main id="main" tabIndex={-1}>
        {children}
      </main>
    </div>
  )
}
