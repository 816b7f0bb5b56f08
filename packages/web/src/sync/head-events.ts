/**
 * Calls back when the server has a new head, for as long as the page is seen. A browser keeps only a handful of connections to one host:
 * a hidden page gives its own up, so that many open tabs do not starve each other, and asks again when it is seen. Returns how to stop.
 */
export function onNewHead(address: string, nudge: () => void): () => void {
  if (typeof EventSource === 'undefined') return () => undefined
  const page = globalThis.document as Document | undefined
  let events: EventSource | undefined
  const tune = (): void => {
    if (page?.visibilityState === 'hidden') {
      events?.close()
      events = undefined
    } else if (events === undefined) {
      events = new EventSource(address)
      events.addEventListener('head', nudge)
      nudge()
    }
  }
  page?.addEventListener('visibilitychange', tune)
  tune()
  return () => {
    page?.removeEventListener('visibilitychange', tune)
    events?.close()
  }
}
