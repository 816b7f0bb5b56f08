import type { ReportContext } from './context.ts'
import type { ReportHeader } from './model.ts'

const NO_ENTRY = '1970-01-01T00:00:00.000Z'

export function headerOf(context: ReportContext): ReportHeader {
  const { state, variant, today, head, said } = context
  const opened = state.brief.opened?.body
  return {
    title: said(opened?.title ?? state.investigation),
    investigation: state.investigation,
    place: said(opened?.locality ?? ''),
    setting: opened?.setting ?? '',
    variant,
    openedOn: opened?.openedOn,
    today,
    asOf: state.record.entries.at(-1)?.instant ?? NO_ENTRY,
    status: statusOf(context),
    head: { sequence: head.sequence, hash: head.hash },
  }
}

/** Whether the investigation is closed, followed up or open, and by what. */
export function statusOf({ followUp }: ReportContext): string {
  const { closed, started, schedule, next } = followUp
  if (closed !== undefined) {
    const by = closed.body.ruleMet ? 'rule for closing met' : 'closed by decision; the rule for closing was not met'
    return `closed on ${closed.body.closedOn}, ${by}`
  }
  if (started === undefined) return 'open; follow-up not started'
  if (schedule === undefined) return `open; in follow-up since ${started.body.remediationCompletedOn}`
  const due = next === undefined ? 'every round sampled' : `next round due ${next.dueOn}`
  return `open; in follow-up since ${schedule.countsFrom}, ${due}`
}
