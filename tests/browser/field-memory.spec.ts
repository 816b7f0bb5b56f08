import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, type Locator, type Page, test } from '@playwright/test'
import { type KillableBrowser, openBrowser } from '../faults/killable-browser.ts'
import { type FieldRound, makeRound, openAtStop } from './job/field-round.ts'
import { button, dialogOf, field } from './job/person.ts'
import { settleStop } from './job/stop.ts'

// Nothing typed at a stop is lost: the browser is killed (SIGKILL, all its processes) in the middle of each field.

/** A fast hand. */
const KEY_MS = 60

interface HalfTyped {
  readonly name: string
  /** brings the field to the screen, from the stop as it opens */
  readonly reach: (page: Page, visit: Locator) => Promise<Locator>
  readonly text: string
}

const FIELDS: readonly HalfTyped[] = [
  {
    name: 'a note a step asks for',
    reach: async (page, visit) => {
      await settleStop(page, { visit, until: 'Used today?' })
      return field(visit, 'What you were told or saw')
    },
    text: 'The cleaner ran it at sev',
  },
  {
    name: 'why a step can’t be done',
    reach: async (page, visit) => {
      await button(visit, 'Can’t do this').click()
      return field(dialogOf(page, /why not\?$/), 'In words, if it needs more (type before you choose)')
    },
    text: 'painted ov',
  },
  {
    name: 'a note of one’s own',
    reach: async (page, visit) => {
      await button(visit, 'More').click()
      return field(dialogOf(page, '101 basin tap'), 'Anything else worth keeping about this stop')
    },
    text: 'drip under the bas',
  },
  {
    name: 'a label',
    reach: async (page, visit) => {
      await settleStop(page, { visit, until: 'Label the tube' })
      return field(visit, 'What the label in your hand says')
    },
    text: 'MRH-00',
  },
  {
    name: 'a stop to be added',
    reach: async (page, visit) => {
      await toList(page, visit)
      await button(page, 'Add a stop').click()
      return field(dialogOf(page, 'Add a stop'), 'Why here')
    },
    text: 'a hose nobody told of',
  },
  {
    name: 'an instrument to be registered',
    reach: async (page, visit) => {
      await toList(page, visit)
      await button(page, 'Register an instrument').click()
      return field(dialogOf(page, 'Register an instrument'), 'Name or number on it')
    },
    text: 'T-1',
  },
]

for (const { name, reach, text } of FIELDS)
  test(`half typed and killed: ${name}`, async () => {
    const round = makeRound('101 basin tap')
    await withProfile(async (profile) => {
      const before = await openBrowser(profile)
      const visit = await openAtStop(await phone(before), round)
      const typed = await reach(before.page, visit)
      await typed.click()
      await before.page.keyboard.type(text, { delay: KEY_MS })
      await expect(typed).toHaveValue(text)
      await expect.poll(() => isDraft(before.page, text)).toBe(true)
      await before.kill()
      const after = await openBrowser(profile)
      try {
        const again = await openedAgain(await phone(after), round)
        await expect(await reach(after.page, again)).toHaveValue(text)
      } finally {
        await after.kill()
      }
    })
  })

test('[OFF21] readings of a curve outlast a kill that only the database saw out, with the clock running and a reading due', async ({
  page,
}) => {
  await page.setViewportSize({ width: 390, height: 844 })
  const round = makeRound('101 basin tap')
  const visit = await openAtStop(page, round)
  await settleStop(page, { visit, until: 'Run until it is as hot as it gets' })
  await button(visit, 'Open the tap, start the clock').click()
  const add = async (reading: string) => {
    await field(visit, 'Probe shows').fill(reading)
    await button(visit.locator('.field-act'), `Add ${reading} °C`).click()
  }
  await add('31.2')
  const name = `${round.investigation}/R1/${round.stop.id}`
  const older = await page.evaluate((key) => localStorage.getItem(key), `rillmark.draft.${name}`)
  for (const reading of ['40.1', '45.2', '48.3']) {
    await page.clock.fastForward('00:10')
    await add(reading)
  }
  const points = async () => pointsIn(await draftInDatabase(page, `draft field ${name}`))
  await expect.poll(points).toMatch(/48\.3/)
  const all = await points()
  // a killed browser may lose what it wrote last where a reload finds it at once
  await page.goto('/mark.svg')
  await page.evaluate(([key, text]) => localStorage.setItem(key, text), [
    `rillmark.draft.${name}`,
    older ?? '',
  ] as const)
  const again = await openedAgain(page, round)
  await expect(again.getByText(/48\.3/).first()).toBeVisible()
  // a reading is due by now: that it was called for is written at once
  const told = () => page.evaluate((key) => localStorage.getItem(key), `rillmark.draft.${name}`)
  await expect.poll(told).not.toBe(older)
  expect(pointsIn(await told())).toBe(all)
  expect(await points()).toBe(all)
})

function pointsIn(text: string | null | undefined): string | undefined {
  const { fields = {} } = JSON.parse(text ?? '{}') as { fields?: Record<string, string> }
  return Object.entries(fields).find(([key]) => key.endsWith(' points'))?.[1]
}

function draftInDatabase(page: Page, key: string): Promise<string | undefined> {
  return page.evaluate(
    (wanted) =>
      new Promise<string | undefined>((resolve, reject) => {
        const asked = indexedDB.open('rillmark')
        asked.addEventListener('error', () => reject(asked.error))
        asked.addEventListener('success', () => {
          const kept = asked.result.transaction('device').objectStore('device').get(wanted)
          kept.addEventListener('success', () => {
            asked.result.close()
            resolve(kept.result as string | undefined)
          })
        })
      }),
    key,
  )
}

/** Whether a draft with that text is in the database of this browser: what was written there before is on the disk. */
function isDraft(page: Page, text: string): Promise<boolean> {
  return page.evaluate(
    (typed) =>
      new Promise<boolean>((resolve, reject) => {
        const asked = indexedDB.open('rillmark')
        asked.addEventListener('error', () => reject(asked.error))
        asked.addEventListener('success', () => {
          const drafts = IDBKeyRange.bound('draft ', 'draft \uffff')
          const reading = asked.result.transaction('device').objectStore('device').getAll(drafts)
          reading.addEventListener('success', () => {
            asked.result.close()
            resolve((reading.result as string[]).some((draft) => draft.includes(`"${typed}"`)))
          })
        })
      }),
    text,
  )
}

/** The page of a browser at the size of a phone, finding the app by relative addresses. */
async function phone({ page }: KillableBrowser): Promise<Page> {
  await page.setViewportSize({ width: 390, height: 844 })
  page.setDefaultTimeout(15_000)
  return page
}

async function openedAgain(page: Page, { investigation }: FieldRound): Promise<Locator> {
  await page.goto(`${process.env['RILLMARK_URL'] ?? ''}/i/${investigation}/fieldwork`)
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible()
  return page.locator('section.field-visit')
}

/** Which screen was open last is remembered too: the stop, or already the list. */
async function toList(page: Page, visit: Locator): Promise<void> {
  const add = button(page, 'Add a stop')
  await expect(async () => {
    if (await visit.isVisible()) await button(visit, /^stop \d+ of/).click({ timeout: 1000 })
    await expect(add).toBeVisible({ timeout: 1000 })
  }).toPass()
}

async function withProfile(use: (profile: string) => Promise<void>): Promise<void> {
  const profile = mkdtempSync(join(tmpdir(), 'rillmark-profile-'))
  try {
    await use(profile)
  } finally {
    rmSync(profile, { recursive: true, force: true, maxRetries: 5 })
  }
}
