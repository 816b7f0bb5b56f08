const LATEST_MS = 3000

/** After the screen that is being shown: for what can wait for it. */
export function whenIdle(): Promise<unknown> {
  const { requestIdleCallback: ask } = globalThis as { requestIdleCallback?: typeof requestIdleCallback }
  return new Promise((resolve) => (ask === undefined ? setTimeout(resolve, 1) : ask(resolve, { timeout: LATEST_MS })))
}
