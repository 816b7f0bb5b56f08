import type { ReactNode } from 'react'

/** Something worth knowing here. `kind` warn: look again before going on; bad: this went wrong, and what to do. */
export function Note({
  children,
  kind = 'plain',
}: {
  readonly children: ReactNode
  readonly kind?: 'plain' | 'warn' | 'bad'
}): ReactNode {
  return (
    <div className={`note note-${kind}`} role={kind === 'bad' ? 'alert' : 'note'}>
      {kind !== 'plain' && <b>{kind === 'warn' ? 'Look again. ' : 'Not done. '}</b>}
      {children}
    </div>
  )
}
