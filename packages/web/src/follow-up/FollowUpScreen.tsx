import { counted } from '@rillmark/casebook/units/counted.ts'
import { type FollowUpView, followUpView } from '@rillmark/casebook/follow-up/follow-up-view.ts'
import { daysBetween } from '@rillmark/science/calendar/iso-date.ts'
import { type ReactNode, useMemo, useState } from 'react'
import { AtHand } from '../calculators/AtHand.tsx'
import { CalculatorLink } from '../calculators/CalculatorLink.tsx'
import { Button } from '../kit/Button.tsx'
import { EmptyState } from '../kit/EmptyState.tsx'
import { Note } from '../kit/Note.tsx'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { Section } from '../kit/Section.tsx'
import { Split } from '../kit/Split.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { localDay } from '../store/local-time.ts'
import { useNow } from '../store/use-now.ts'
import { CloseForm } from './CloseForm.tsx'
import { followUpOffers, upperBoundFigures } from './follow-up-offers.ts'
import './follow-up.css'
import { FollowUpSide } from './FollowUpSide.tsx'
import { RoundTimeline } from './RoundTimeline.tsx'
import { roundTimeline } from './round-timeline.ts'
import { OutcomeTable, ScheduleTable } from './RoundTables.tsx'
import { StartForm } from './StartForm.tsx'

/** The rounds, the rule, the reason the clock restarted, and what a negative series could still miss. */
export function FollowUpScreen(): ReactNode {
  const { state, version } = useInvestigation()
  const today = localDay(useNow())
  // oxlint-disable-next-line react-hooks/exhaustive-deps -- the state is extended in place; the version tells when
  const view = useMemo(() => followUpView(state, today), [version, today])
  if (view.started === undefined) return <NotStarted view={view} today={today} />
  const model = roundTimeline(view)
  const { schedule } = view
  return (
    <Split asideLabel="The rule" aside={<FollowUpSide view={view} today={today} />}>
      <div className="stack">
        <PageHead title={headline(view, today)} name="Follow-up" lead={view.schedule?.closing.reason} />
        <Warnings view={view} />
        {model !== undefined && (
          <Section title="Rounds of the rule">
            <RoundTimeline model={model} today={today} />
            <ScheduleTable rounds={schedule?.rounds ?? []} />
          </Section>
        )}
        <WhyRestarted view={view} />
        {view.couldMiss !== undefined && (
          <Section title="What the negatives could still miss">
            <p>{view.couldMiss.words}</p>
            <p className="faint">
              A negative speaks for a volume and a method at a moment, never “free of Legionella”. Reckoned with a
              laboratory that finds {Math.round(view.couldMiss.sensitivity * 100)} % of positive samples.{' '}
              <CalculatorLink id="upper-bound-after-negatives" figures={upperBoundFigures(view.couldMiss)}>
                How it is worked out
              </CalculatorLink>
            </p>
          </Section>
        )}
        <Section title="Rounds taken">
          <OutcomeTable outcomes={view.outcomes} />
        </Section>
        <AtHand about="follow-up" offers={followUpOffers(state, { view, today })} />
      </div>
    </Split>
  )
}

function NotStarted({ view, today }: { readonly view: FollowUpView; readonly today: string }): ReactNode {
  const { state } = useInvestigation()
  const [open, setOpen] = useState<'start' | 'close'>()
  const { closed } = view
  return (
    <Page>
      <PageHead title={closed === undefined ? 'Follow-up' : `Closed on ${closed.body.closedOn}`} name="Follow-up" />
      <EmptyState
        title={closed === undefined ? 'No follow-up yet' : 'Closed without follow-up'}
        action={
          closed === undefined && (
            <div className="button-row">
              <Button kind="primary" onPress={() => setOpen('start')}>
                Start follow-up
              </Button>
              <Button onPress={() => setOpen('close')}>Close without it</Button>
            </div>
          )
        }
      >
        <p>
          Once remediation is completed, the rounds of samples that must stay negative are set out here by the rule of a
          criteria set. A positive starts them again.
        </p>
        {closed?.body.overrideReason !== undefined && <p>{closed.body.overrideReason}</p>}
      </EmptyState>
      {view.outcomes.length > 0 && (
        <Section title="Rounds taken">
          <OutcomeTable outcomes={view.outcomes} />
        </Section>
      )}
      <AtHand about="follow-up" offers={followUpOffers(state, { view, today })} />
      {open === 'start' && <StartForm onClose={() => setOpen(undefined)} />}
      {open === 'close' && <CloseForm today={today} onClose={() => setOpen(undefined)} />}
    </Page>
  )
}

function Warnings({ view }: { readonly view: FollowUpView }): ReactNode {
  const { closed, reopenBecause, remediatedSince, outcomes } = view
  const begun = outcomes.filter(({ purpose, outcome }) => purpose !== 'initial' && outcome === 'begun')
  return (
    <>
      {closed === undefined &&
        begun.map(({ round, reason }) => (
          <Note key={round}>
            {round} is begun and fills no round of the rule yet: {reason}.
          </Note>
        ))}
      {closed !== undefined && !closed.body.ruleMet && (
        <Note kind="warn">Closed although the rule was not met: {closed.body.overrideReason}</Note>
      )}
      {reopenBecause.length > 0 && <Note kind="warn">Reopen? {reopenBecause.join('; ')}.</Note>}
      {closed === undefined &&
        remediatedSince.map(({ on, what }) => (
          <Note kind="warn" key={`${on} ${what}`}>
            Remediation was completed after the clock started: {what}, on {on}. Start again from there if it changed the
            water.
          </Note>
        ))}
    </>
  )
}

function WhyRestarted({ view }: { readonly view: FollowUpView }): ReactNode {
  const restarts = view.schedule?.restarts ?? []
  // a positive is already told as the reason of a restart
  const notCounted = (view.schedule?.notCounted ?? []).filter(
    ({ outcome }) => outcome !== 'positive' || restarts.length === 0,
  )
  if (restarts.length === 0 && notCounted.length === 0) return null
  return (
    <Section title={restarts.length > 0 ? 'Why the clock restarted' : 'Samplings that count for no round'}>
      <ul className="follow-up-reasons">
        {restarts.map(({ on, reason }) => (
          <li key={`restart ${on} ${reason}`}>
            <b className="num">{on}</b> <span>{reason}</span>
          </li>
        ))}
        {notCounted.map(({ collectedOn, outcome, reason }, index) => (
          // oxlint-disable-next-line react/no-array-index-key -- two samplings of a day have no other name
          <li key={`${collectedOn} ${index}`} className="quiet">
            <span className="num">{collectedOn}</span>
            <span>
              {outcome}; counts for no round: {reason}
            </span>
          </li>
        ))}
      </ul>
    </Section>
  )
}

function headline({ closed, schedule, next }: FollowUpView, today: string): string {
  if (closed !== undefined) return `Closed on ${closed.body.closedOn}`
  if (schedule === undefined) return 'The rule of this follow-up is not known here'
  if (schedule.closing.met) return 'The rule is met: the investigation can be closed'
  if (next === undefined) return 'Every round is sampled; results are awaited'
  if (today > next.latestOn)
    return `Round ${next.number} is late by ${counted(daysBetween(next.latestOn, today), 'day')}`
  const ahead = daysBetween(today, next.dueOn)
  if (ahead > 0) return `Round ${next.number} is due in ${counted(ahead, 'day')}, on ${next.dueOn}`
  return `Round ${next.number} is due now, until ${next.latestOn}`
}
