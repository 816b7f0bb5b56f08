import { randomUUID } from 'node:crypto'
import { expect, type Locator, type Page } from '@playwright/test'
import { DemoDesk } from '../../../demo/desk.ts'
import { openInvestigation } from '../../../demo/scenario/brief.ts'
import { describeBuilding } from '../../../demo/scenario/building.ts'
import { adoptPlan } from '../../../demo/scenario/plan.ts'
import { registerInstruments } from '../../../demo/scenario/visit.ts'
import type { SampleKind } from '../../../packages/casebook/src/entry/fields.ts'
import type { Stop } from '../../../packages/casebook/src/plan/plan-file.ts'
import type { InvestigationState } from '../../../packages/casebook/src/state/investigation-state.ts'
import { button, dialogOf, field } from './person.ts'

/** A planned round of a building of its own, with one stop in mind. */
export interface FieldRound {
  readonly investigation: string
  readonly desk: DemoDesk
  readonly state: InvestigationState
  readonly stop: Stop
  readonly labelOf: (kind: SampleKind) => string
}

/** Makes a round with a stop of that title in it; nothing is on the server yet. */
export function makeRound(title: string): FieldRound {
  const investigation = `field-${randomUUID().slice(0, 8)}`
  const desk = new DemoDesk(investigation)
  openInvestigation(desk)
  describeBuilding(desk)
  adoptPlan(desk, { code: 'R1', at: '2026-03-03T16:10', scheduledOn: '2026-03-04', samples: 30 })
  registerInstruments(desk)
  const stop = desk.state.plan.rounds.get('R1')?.body.plan.stops.find((one) => one.title === title)
  if (stop === undefined) throw new Error(`The round has no stop ${title}`)
  const labelOf = (kind: SampleKind): string => {
    const label = stop.samples.find(({ sampleKind }) => sampleKind === kind)?.label
    if (label === undefined) throw new Error(`${title} has no ${kind}`)
    return label
  }
  return { investigation, desk, state: desk.state, stop, labelOf }
}

/** Puts the round on the server, opens it on this page at its stop, starts the stop and says who writes. */
export async function openAtStop(page: Page, round: FieldRound): Promise<Locator> {
  const visit = await showStop(page, round)
  await button(visit, 'Start this stop').click()
  const asked = dialogOf(page, 'Who is writing?')
  await expect(field(asked, 'Your name')).toBeFocused()
  await page.keyboard.type('S. Sampler')
  await page.keyboard.press('Enter')
  await expect(visit.getByRole('img', { name: /steps settled$/ })).toBeVisible()
  return visit
}

/** Puts the round on the server and shows its stop, not begun. */
export async function showStop(page: Page, round: FieldRound): Promise<Locator> {
  const answer = await page.request.post(`/api/investigations/${round.investigation}/entries`, {
    data: { entries: round.desk.entries },
  })
  expect(await answer.json()).toMatchObject({ refused: [] })
  await page.clock.install({ time: '2026-03-04T08:00:00' })
  await page.goto(`/i/${round.investigation}/fieldwork`)
  await page.getByRole('listitem').filter({ hasText: round.stop.title }).getByRole('button').first().press('Enter')
  const visit = page.locator('section.field-visit')
  await expect(visit).toBeVisible()
  return visit
}
