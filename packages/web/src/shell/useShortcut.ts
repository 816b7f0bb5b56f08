import { useEffect } from 'react'

/** Runs an act on Ctrl or Cmd with a letter, anywhere on the page. */
export function useShortcut(letter: string, act: () => void): void {
  useEffect(() => {
    const pressed = (event: KeyboardEvent): void => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey || event.key.toLowerCase() !== letter) return
      event.preventDefault()
      act()
    }
    addEventListener('keydown', pressed)
    return () => removeEventListener('keydown', pressed)
  }, [letter, act])
}
