import type { Entry } from '@rillmark/casebook/entry/entry.ts'
import { findCriteriaSet } from '@rillmark/casebook/criteria/criteria-sets.ts'
import { BRANDT, DemoDesk, type Hand, OKORO, VALE } from './desk.ts'
import { openInvestigation } from './scenario/brief.ts'
import { describeBuilding, sweepDevices } from './scenario/building.ts'
import { amendCases, recordCases } from './scenario/cases.ts'
import { chooseCriteria, concludeOnIsolates, concludeOnSource, writeReportTexts } from './scenario/conclusions.ts'
import { fitFilters, remediate, remediateAgain, restrictUse } from './scenario/control.ts'
import { packAndSend } from './scenario/custody.ts'
import { startFollowUp } from './scenario/follow-up.ts'
import { importReport } from './scenario/laboratory.ts'
import { adoptPlan } from './scenario/plan.ts'
import { recordPrediction } from './scenario/prediction.ts'
import { foundInFirstRound, foundInSecondRound, foundInThirdRound, recordIsolates } from './scenario/results.ts'
import { registerInstruments, visitStops } from './scenario/visit.ts'
import { shiftEntries } from './shift.ts'
import { demoPublicKey, signedByDevices } from './signing.ts'

export const DEMO_INVESTIGATION = 'marram-house'

/** The day the example is told from: a round is due in two days. */
const TOLD_ON = '2026-05-12'

/**
 * The worked example as entries: Marram House, Quillhaven, invented. Every entry passes the rules of the casebook; the laboratory's files
 * go through the import a person uses; each device signs from when it joined. With `today`, all dates move by whole weeks so that the next round lies just ahead.
 */
export async function demoEntries({ today = TOLD_ON }: { today?: string } = {}): Promise<readonly Entry[]> {
  const desk = new DemoDesk(DEMO_INVESTIGATION)
  await initialRound(desk)
  await firstRemediation(desk)
  await secondRemediation(desk)
  return signedByDevices(shiftEntries(desk.entries, { from: TOLD_ON, to: today }))
}

/** Puts the example into a running Rillmark, through the door every device uses. */
export async function buildDemo(
  append: (entries: readonly Entry[]) => Promise<void>,
  options: { today?: string } = {},
): Promise<void> {
  await append(await demoEntries(options))
}

const version = findCriteriaSet('us-cdc')?.version ?? ''

async function initialRound(desk: DemoDesk): Promise<void> {
  joinDevice(desk, { by: VALE, name: 'Desk of R. Vale', role: 'lead', at: '2026-03-02T09:10' })
  openInvestigation(desk)
  recordCases(desk, { from: '2026-03-02T00:00', to: '2026-03-02T12:00' })
  describeBuilding(desk)
  recordCases(desk, { from: '2026-03-02T12:00', to: '2026-03-03T00:00' })
  sweepDevices(desk)
  chooseCriteria(desk, version)
  recordCases(desk, { from: '2026-03-03T00:00', to: '2026-03-05T00:00' })
  restrictUse(desk)
  adoptPlan(desk, { code: 'R1', at: '2026-03-03T16:10', scheduledOn: '2026-03-04', samples: 62 })
  joinDevice(desk, { by: OKORO, name: 'Phone of T. Okoro', role: 'sampler', at: '2026-03-03T16:20' })
  registerInstruments(desk)
  visitStops(desk, {
    round: 'R1',
    startsAt: '2026-03-04T08:00',
    departures: {
      'kitchen-tap-b303': { reason: 'fitting could not be removed', text: 'Aerator seized; swabbed from below.' },
      'shower-c405': {
        reason: 'already running on arrival',
        text: 'Cleaner had run it for about a minute; waited 30 minutes.',
      },
    },
  })
  packAndSend(desk, { code: 'R1', at: '2026-03-04T17:00', box: 'Box 1', seal: '0451' })
  fitFilters(desk)
  recordCases(desk, { from: '2026-03-05T00:00', to: '2026-03-10T00:00' })
  amendCases(desk)
  const overgrown = labelAt(desk, { round: 'R1', component: 'return-main-a' })
  await importReport(desk, {
    round: 'R1',
    at: '2026-03-16T09:30',
    collectedOn: '2026-03-04',
    reportedOn: '2026-03-15',
    reportId: 'QWL-2026-0311',
    found: foundInFirstRound(overgrown),
  })
}

/** From here on the device signs what it writes. */
function joinDevice(
  desk: DemoDesk,
  { by, name, role, at }: { by: Hand; name: string; role: 'lead' | 'sampler'; at: string },
): void {
  desk.write('device.joined', { name, role, key: demoPublicKey(by.device) }, { at, by })
}

async function firstRemediation(desk: DemoDesk): Promise<void> {
  const shower = labelAt(desk, { round: 'R1', component: 'shower-c605' })
  const tap = labelAt(desk, { round: 'R1', component: 'shower-c405' })
  concludeOnSource(desk, {
    shower,
    returnC: labelAt(desk, { round: 'R1', component: 'return-main-c' }),
    heater: labelAt(desk, { round: 'R1', component: 'heater-1' }),
  })
  remediate(desk)
  recordIsolates(desk, { shower, tap })
  concludeOnIsolates(desk)
  startFollowUp(desk, {
    version,
    completedOn: '2026-03-19',
    at: '2026-03-24T11:00',
    reason: 'Riser C disinfected and its return balanced.',
  })
  adoptPlan(desk, { code: 'R2', at: '2026-04-01T10:00', scheduledOn: '2026-04-02', samples: 74 })
  visitStops(desk, {
    round: 'R2',
    startsAt: '2026-04-02T08:10',
    noAccess: { 'basin-tap-d208': 'Store room locked, key not found.' },
    filtered: showerOfC,
  })
  packAndSend(desk, { code: 'R2', at: '2026-04-02T15:30', box: 'Box 2', seal: '0452' })
  await importReport(desk, {
    round: 'R2',
    at: '2026-04-14T09:00',
    collectedOn: '2026-04-02',
    reportedOn: '2026-04-13',
    reportId: 'QWL-2026-0377',
    found: foundInSecondRound,
  })
}

async function secondRemediation(desk: DemoDesk): Promise<void> {
  remediateAgain(desk)
  startFollowUp(desk, {
    version,
    completedOn: '2026-04-16',
    at: '2026-04-16T16:00',
    reason: 'Dead leg behind shower 605 removed after a positive in round R2.',
  })
  adoptPlan(desk, { code: 'R3', at: '2026-04-29T10:00', scheduledOn: '2026-04-30', samples: 74 })
  visitStops(desk, {
    round: 'R3',
    startsAt: '2026-04-30T08:05',
    filtered: showerOfC,
  })
  joinDevice(desk, { by: BRANDT, name: 'Phone of J. Brandt', role: 'sampler', at: '2026-04-30T15:10' })
  packAndSend(desk, { code: 'R3', at: '2026-04-30T15:20', box: 'Box 3', seal: '0453', watched: true })
  await importReport(desk, {
    round: 'R3',
    at: '2026-05-11T09:20',
    collectedOn: '2026-04-30',
    reportedOn: '2026-05-10',
    reportId: 'QWL-2026-0442',
    found: foundInThirdRound,
  })
  recordPrediction(desk, {
    at: '2026-05-11T13:30',
    note: 'Simulated before the next round is planned, to see which outlets stand warm or long.',
  })
  writeReportTexts(desk)
}

/** The first labelled sample taken at a component in a round. */
function labelAt(desk: DemoDesk, { round, component }: { round: string; component: string }): string {
  const stops = desk.state.plan.rounds.get(round)?.body.plan.stops ?? []
  const label = stops
    .find((stop) => stop.component === component)
    ?.samples.find((sample) => sample.label !== undefined)?.label
  if (label === undefined) throw new Error(`The example has no sample at ${component} in ${round}`)
  return label
}

const showerOfC = (component: string | undefined): boolean => component?.startsWith('shower-c') === true
