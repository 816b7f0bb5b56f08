import type { FollowUpView } from '@rillmark/casebook/follow-up/follow-up-view.ts'
import { Link } from '@tanstack/react-router'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { KeyValue } from '../kit/KeyValue.tsx'
import { Note } from '../kit/Note.tsx'
import { Section } from '../kit/Section.tsx'
import { saveDocument } from '../store/fetch-document.ts'
import { useInvestigation } from '../store/investigation.tsx'
import { CloseForm } from './CloseForm.tsx'
import { ReopenForm } from './ReopenForm.tsx'
import { ruleSource, ruleTitle, StartForm } from './StartForm.tsx'

type Form = 'start' | 'close' | 'reopen'

/** The rule that runs, where it is from, and what can be done now. */
export function FollowUpSide({ view, today }: { readonly view: FollowUpView; readonly today: string }): ReactNode {
  const { id } = useInvestigation()
  const [open, setOpen] = useState<Form>()
  const close = (): void => setOpen(undefined)
  const { criteria, started, schedule, closed } = view
  return (
    <>
      <h2>{criteria === undefined ? 'The rule is not known here' : ruleTitle(criteria)}</h2>
      {criteria !== undefined && <p className="quiet">{ruleSource(criteria)}</p>}
      {criteria?.followUp?.known === 'memory' && (
        <Note kind="warn">This rule was written from memory. Verify it against its source before you rest on it.</Note>
      )}
      <KeyValue
        facts={[
          { key: 'Criteria set', value: `${started?.body.criteria ?? ''}, version ${started?.body.version ?? ''}` },
          { key: 'Positive means', value: criteria?.followUp?.positiveMeans ?? 'not known' },
          { key: 'Counts from', value: schedule?.countsFrom ?? 'not known' },
          { key: 'Closing at the earliest', value: schedule?.closing.earliestOn ?? 'not known' },
        ]}
      />
      {criteria?.followUp !== undefined && <p className="quiet">{criteria.followUp.closing}</p>}
      <Section title="What can be done">
        <div className="follow-up-acts">
          {closed === undefined && (
            <Link
              to="/i/$investigation/plan"
              params={{ investigation: id }}
              className="button button-quiet button-normal"
            >
              Plan the next round
            </Link>
          )}
          <CalendarButton />
          {closed === undefined ? (
            <>
              <Button onPress={() => setOpen('start')}>Start again after remediation</Button>
              <Button onPress={() => setOpen('close')}>Close the investigation</Button>
            </>
          ) : (
            <Button onPress={() => setOpen('reopen')}>Reopen</Button>
          )}
        </div>
      </Section>
      {open === 'start' && <StartForm onClose={close} />}
      {open === 'close' && <CloseForm today={today} onClose={close} />}
      {open === 'reopen' && <ReopenForm because={view.reopenBecause} onClose={close} />}
    </>
  )
}

/** The rounds for one's own calendar, made on this device. */
function CalendarButton(): ReactNode {
  const { id, state } = useInvestigation()
  const [message, setMessage] = useState<string>()
  const download = async (): Promise<void> => {
    const { followUpCalendar } = await import('@rillmark/exchange/follow-up/calendar.ts')
    const made = followUpCalendar(state)
    if (typeof made !== 'string') return setMessage('There is no follow-up to put into a calendar yet.')
    saveDocument({ blob: new Blob([made], { type: 'text/calendar;charset=utf-8' }), fileName: `${id}-follow-up.ics` })
  }
  return (
    <>
      <Button onPress={() => void download()}>Download the calendar (iCalendar)</Button>
      {message !== undefined && <Note kind="bad">{message}</Note>}
    </>
  )
}
