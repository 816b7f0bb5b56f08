import { createContext, type ReactNode, useCallback, useContext, useMemo, useRef, useState } from 'react'
import { Button } from './Button.tsx'

interface Said {
  readonly id: number
  readonly text: string
  readonly undo?: (() => void) | undefined
}

export interface Toaster {
  /** Says one line at the foot of the screen; with `undo`, offers to take the act back. It stays until read away or replaced. */
  readonly say: (text: string, options?: { readonly undo?: () => void }) => void
}

const Context = createContext<Toaster>({ say: () => undefined })
const SHOWN_MS = 8000
const SHOWN_WITH_UNDO_MS = 20_000

/** Say what just happened, and offer to undo it. */
export function useToasts(): Toaster {
  return useContext(Context)
}

export function Toasts({ children }: { readonly children: ReactNode }): ReactNode {
  const [said, setSaid] = useState<Said>()
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined)
  const next = useRef(1)
  const say = useCallback<Toaster['say']>((text, options) => {
    clearTimeout(timer.current)
    setSaid({ id: next.current++, text, undo: options?.undo })
    timer.current = setTimeout(() => setSaid(undefined), options?.undo === undefined ? SHOWN_MS : SHOWN_WITH_UNDO_MS)
  }, [])
  const value = useMemo(() => ({ say }), [say])
  const undo = (): void => {
    said?.undo?.()
    setSaid(undefined)
  }
  return (
    <Context value={value}>
      {children}
      <div className="toasts" role="status" aria-live="polite">
        {said !== undefined && (
          <div key={said.id} className="toast">
            <span>{said.text}</span>
            {said.undo !== undefined && <Button onPress={undo}>Undo</Button>}
            <Button kind="text" onPress={() => setSaid(undefined)}>
              Close
            </Button>
          </div>
        )}
      </div>
    </Context>
  )
}
