import { randomUUID } from 'node:crypto'
import { expect, type Locator, type Page } from '@playwright/test'
import { DemoDesk, OKORO } from '../../../demo/desk.ts'
import { openInvestigation } from '../../../demo/scenario/brief.ts'
import { describeBuilding } from '../../../demo/scenario/building.ts'
import { adoptPlan } from '../../../demo/scenario/plan.ts'
import type { SampleKind } from '../../../packages/casebook/src/entry/fields.ts'
import type { Stop } from '../../../packages/casebook/src/plan/plan-file.ts'
import type { InvestigationState } from '../../../packages/casebook/src/state/investigation-state.ts'
import { button, dialogOf, field } from './person.ts'
import { pretendDay } from './pretend-day.ts'

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
  for (const instrument of INSTRUMENTS)
    desk.write(
      'instrument.registered',
      { ...instrument, measures: [...instrument.measures] },
      { at: '2026-03-04T07:40', by: OKORO },
    )
  const stop = desk.state.plan.rounds.get('R1')?.body.plan.stops.find((one) => one.title === title)
  if (stop === undefined) throw new Error(`The round has no stop ${title}`)
  const labelOf = (kind: SampleKind): string => {
    const label = stop.samples.find(({ sampleKind }) => sampleKind === kind)?.label
    if (label === undefined) throw new Error(`${title} has no ${kind}`)
    return label
  }
  return { investigation, desk, state: desk.state, stop, labelOf }
}

/** A round whose stop of that title was sampled, and others if wanted; nothing is on the server yet. */
export function collect(title: string, others = 0): { readonly round: FieldRound; readonly labels: readonly string[] } {
  const round = makeRound(title)
  const { stop, desk, state } = round
  const rest = (state.plan.rounds.get('R1')?.body.plan.stops ?? []).filter(({ id }) => id !== stop.id)
  const labels = [stop, ...rest.slice(0, others)].flatMap(({ id, samples }) => {
    const at = { round: 'R1', stop: id }
    desk.write('stop.started', at, { at: '2026-03-04T09:30', by: OKORO })
    return samples.flatMap(({ label, sampleKind }) => {
      if (label === undefined) return []
      const body = { ...at, label, sampleKind, volumeMl: 1000, filter: 'none' } as const
      desk.write('sample.collected', body, { at: '2026-03-04T09:40', by: OKORO })
      return [label]
    })
  })
  return { round, labels }
}

/** In calibration whatever the clock of the server says. */
const INSTRUMENTS = [
  {
    code: 'T1',
    kind: 'thermometer',
    measures: ['hot-temperature', 'cold-temperature'],
    rangeMin: -20,
    rangeMax: 110,
    resolution: 0.1,
    unit: 'Cel',
    calibratedOn: '2025-10-14',
    calibrationDue: '2099-10-14',
  },
  {
    code: 'K1',
    kind: 'chlorine kit',
    measures: ['total-chlorine'],
    rangeMin: 0,
    rangeMax: 3.5,
    resolution: 0.1,
    unit: 'mg/L',
    calibratedOn: '2026-01-08',
    calibrationDue: '2099-01-08',
  },
  { code: 'P1', kind: 'pH meter', measures: ['ph'], rangeMin: 0, rangeMax: 14, resolution: 0.01, unit: '[pH]' },
] as const

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

/** The app under test; named in full, because a browser over a profile of its own knows no base address. */
const appAddress = (): string => process.env['RILLMARK_URL'] ?? ''

/** Puts all that was written of the round on the server. */
export async function toServer(page: Page, round: FieldRound): Promise<void> {
  const answer = await page.request.post(`${appAddress()}/api/investigations/${round.investigation}/entries`, {
    data: { entries: round.desk.entries },
  })
  expect(await answer.json()).toMatchObject({ refused: [] })
}

/** Puts the round on the server and shows its stop, not begun. */
export async function showStop(page: Page, round: FieldRound): Promise<Locator> {
  await toServer(page, round)
  await pretendDay(page, '2026-03-04T08:00:00')
  await page.goto(`${appAddress()}/i/${round.investigation}/fieldwork`)
  await page.getByRole('listitem').filter({ hasText: round.stop.title }).getByRole('button').first().press('Enter')
  const visit = page.locator('section.field-visit')
  await expect(visit).toBeVisible()
  return visit
}
