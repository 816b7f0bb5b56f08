import { holdUpdates } from './busy.ts'

const LOOK_MS = 2000
type Typed = HTMLInputElement | HTMLTextAreaElement | HTMLSelectElement

/**
 * Holds a newer version back while something is typed in a field that is still on the screen and differs from what stood there before. Fields
 * that only search do not count. Returns how to stop.
 */
export function holdWhileTyped(page: Document): () => void {
  const before = new WeakMap<Typed, string>()
  const typed = new Set<Typed>()
  let release: (() => void) | undefined
  let timer: ReturnType<typeof setInterval> | undefined

  const look = (): void => {
    for (const field of typed) if (!field.isConnected || field.value === before.get(field)) typed.delete(field)
    if (typed.size > 0 && release === undefined) {
      release = holdUpdates('something is typed')
      timer = setInterval(look, LOOK_MS)
    } else if (typed.size === 0) {
      release?.()
      release = undefined
      clearInterval(timer)
    }
  }
  const entered = ({ target }: Event): void => {
    if (isField(target) && !before.has(target)) before.set(target, target.value)
  }
  const input = ({ target }: Event): void => {
    if (!isField(target)) return
    if (!before.has(target)) before.set(target, '')
    typed.add(target)
    look()
  }
  page.addEventListener('focusin', entered)
  page.addEventListener('input', input)
  return () => {
    page.removeEventListener('focusin', entered)
    page.removeEventListener('input', input)
    typed.clear()
    look()
  }
}

function isField(target: EventTarget | null): target is Typed {
  if (target instanceof HTMLTextAreaElement || target instanceof HTMLSelectElement) return true
  return target instanceof HTMLInputElement && !['search', 'checkbox', 'radio', 'file', 'button'].includes(target.type)
}
