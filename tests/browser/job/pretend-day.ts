import type { Page } from '@playwright/test'

/**
 * Lets a page live on another day than the server. The page then neither tells its clock to the server nor hears the server's: a clock that
 * is months off would rightly be set right, and the story told here would move. How wrong clocks are measured has tests of its own.
 */
export async function pretendDay(page: Page, time: string): Promise<void> {
  await page.clock.install({ time })
  await page.addInitScript(() => {
    const real = globalThis.fetch.bind(globalThis)
    globalThis.fetch = async (input, init) => {
      const pushes = typeof input === 'string' && input.endsWith('/entries') && init?.method === 'POST'
      if (!pushes || typeof init.body !== 'string') return real(input, init)
      const { deviceNow: _, ...sent } = JSON.parse(init.body) as { deviceNow?: unknown }
      const answer = await real(input, { ...init, body: JSON.stringify(sent) })
      if (!answer.ok) return answer
      const { serverNow: _now, ...told } = (await answer.json()) as { serverNow?: unknown }
      return Response.json(told)
    }
  })
}
