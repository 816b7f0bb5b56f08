import { type BriefLine, briefView } from '@rillmark/casebook/brief/brief-view.ts'
import { STEP_WORDS } from '@rillmark/casebook/entry/steps.ts'
import { Link } from '@tanstack/react-router'
import { type ReactNode, useMemo, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { EmptyState } from '../kit/EmptyState.tsx'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { Section } from '../kit/Section.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import './brief.css'
import { momentNow } from './moment.ts'
import { NoteDialog } from './NoteDialog.tsx'
import { Questions } from './Questions.tsx'

/** What happened, what is known and what is not, what is next and what is late: one screen. */
export function BriefScreen(): ReactNode {
  const { id, state, version } = useInvestigation()
  const [writing, setWriting] = useState(false)
  // oxlint-disable-next-line react-hooks/exhaustive-deps -- the state is extended in place; the version tells when
  const brief = useMemo(() => briefView(state, momentNow()), [version])
  const { opened } = state.brief
  const place = opened === undefined ? undefined : [opened.body.title, opened.body.locality].filter(Boolean).join(', ')
  return (
    <Page wide>
      <PageHead
        title={place ?? 'Brief'}
        name="Brief"
        lead={opened === undefined ? undefined : `${opened.body.setting} · opened on ${opened.body.openedOn}`}
        actions={<Button onPress={() => setWriting(true)}>Write a note or question</Button>}
      />
      {brief.happened !== undefined && <p className="brief-happened">{brief.happened}</p>}
      {brief.late.length > 0 && (
        <section className="brief-late" aria-label="Late">
          <h2>Late</h2>
          <Lines lines={brief.late} investigation={id} />
        </section>
      )}
      <div className="brief-columns">
        <Section title="Next">
          {brief.next.length === 0 ? (
            <p className="quiet">Nothing is open.</p>
          ) : (
            <Lines lines={brief.next} investigation={id} />
          )}
        </Section>
        <Section title="Known">
          {brief.known.length === 0 ? (
            <EmptyState title="Nothing is recorded yet">
              <p>Cases and the building come first. What they add up to will stand here.</p>
            </EmptyState>
          ) : (
            <Lines lines={brief.known} investigation={id} />
          )}
        </Section>
        <Section title="Not known">
          {brief.unknown.length === 0 ? (
            <p className="quiet">
              {brief.known.length === 0 ? 'All of it, until something is recorded.' : 'No gap that the record shows.'}
            </p>
          ) : (
            <Lines lines={brief.unknown} investigation={id} />
          )}
        </Section>
      </div>
      <Questions />
      {writing && <NoteDialog onClose={() => setWriting(false)} />}
    </Page>
  )
}

function Lines({
  lines,
  investigation,
}: {
  readonly lines: readonly BriefLine[]
  readonly investigation: string
}): ReactNode {
  return (
    <ul className="brief-lines">
      {lines.map(({ words, step, show }) => (
        <li key={`${step} ${words}`}>
          <span>{words}</span>
          <Link
            to={`/i/$investigation/${step}`}
            params={{ investigation }}
            search={show === undefined ? {} : { show }}
            className="brief-go"
          >
            {STEP_WORDS[step]}
            <span className="visually-hidden">: {words}</span>
          </Link>
        </li>
      ))}
    </ul>
  )
}
