import type { DemoDesk } from '../desk.ts'

export function startFollowUp(
  desk: DemoDesk,
  start: { version: string; completedOn: string; at: string; reason: string },
): void {
  desk.write(
    'follow-up.started',
    { remediationCompletedOn: start.completedOn, criteria: 'us-cdc', version: start.version, reason: start.reason },
    { at: start.at },
  )
}
