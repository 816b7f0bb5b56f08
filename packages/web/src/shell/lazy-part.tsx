import { Component, type ComponentType, lazy, type ReactNode, useEffect, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Note } from '../kit/Note.tsx'

const AGAIN_MS = 30_000

/**
 * A part of the screen that comes in a file of its own. Where that file can't be fetched, or the part fails, the screen around it stays, with
 * all that is typed in it. `instead` is shown in its place and may ask for it again; without it nothing is, and it is asked for again later.
 */
export function lazyPart<P extends object>(
  load: () => Promise<{ readonly default: ComponentType<P> }>,
  instead?: (again: () => void, props: P) => ReactNode,
): (props: P) => ReactNode {
  // a promise that failed would be remembered: the next time needs another
  const held = { Part: lazy(load) }
  const failed = (): void => {
    held.Part = lazy(load)
  }
  return function LazyPart(props) {
    const [tries, setTries] = useState(0)
    const again = (): void => setTries(tries + 1)
    const shown = instead?.(again, props) ?? <Later again={again} />
    return (
      <Boundary key={tries} instead={shown} onFailed={failed}>
        <held.Part {...props} />
      </Boundary>
    )
  }
}

/** In the place of a part that somebody asked for: says so, and asks for it again when pressed. */
export function sayMissing(again: () => void): ReactNode {
  return (
    <Note kind="bad">
      This part is not on this device yet, and it could not be fetched. <Button onPress={again}>Try again</Button>
    </Note>
  )
}

interface BoundaryProps {
  readonly instead: ReactNode
  readonly onFailed: () => void
  readonly children: ReactNode
}

class Boundary extends Component<BoundaryProps, { readonly failed: boolean }> {
  override state = { failed: false }

  static getDerivedStateFromError(): { failed: boolean } {
    return { failed: true }
  }

  override componentDidCatch(): void {
    this.props.onFailed()
  }

  override render(): ReactNode {
    return this.state.failed ? this.props.instead : this.props.children
  }
}

function Later({ again }: { readonly again: () => void }): ReactNode {
  useEffect(() => {
    const timer = setTimeout(again, AGAIN_MS)
    return () => clearTimeout(timer)
  })
  return null
}
