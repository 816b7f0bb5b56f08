import { useEffect } from 'react'

/** Names the window after the screen, so that tabs and history tell screens apart. */
export function usePageTitle(title: string): void {
  useEffect(() => {
    document.title = `${title} · Rillmark`
  }, [title])
}
