import { Link, useLocation } from '@tanstack/react-router'
import { type ReactNode, Suspense, useCallback, useMemo, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { useNow } from '../store/use-now.ts'
import { AuthorPrompt } from './AuthorPrompt.tsx'
import { earliestClock, type RunningClock } from './clocks.ts'
import { JobNav } from './JobNav.tsx'
import { isPlace, PLACE_WORDS } from './job.ts'
import { lazyPart } from './lazy-part.tsx'
import { TopBar } from './TopBar.tsx'
import { useShortcut } from './useShortcut.ts'

const FindDialog = lazyPart(
  async () => ({ default: (await import('./FindDialog.tsx')).FindDialog }),
  (again, { onClose }) => <NotFetched again={again} onClose={onClose} />,
)

/** The shell of one investigation: top bar, the job at the left (a sheet on a phone), the screen. */
export function InvestigationShell({ children }: { readonly children: ReactNode }): ReactNode {
  const [finding, setFinding] = useState(false)
  const [jobOpen, setJobOpen] = useState(false)
  const clock = useClock()
  useShortcut(
    'k',
    useCallback(() => setFinding(true), []),
  )
  return (
    <div className="desk">
      <TopBar where={<Where />} lead={<JobButton onPress={() => setJobOpen(true)} />}>
        <Clock clock={clock} />
        <Sync />
        <Button kind="text" onPress={() => setFinding(true)}>
          Find <kbd className="bar-key">Ctrl K</kbd>
        </Button>
      </TopBar>
      <section className="bar-below" aria-label="Where this investigation stands">
        <div className="bar-where">
          <Where />
        </div>
        <Clock clock={clock} />
        <Sync />
      </section>
      <div className="desk-nav">
        <JobNav />
      </div>
      <main id="main" tabIndex={-1}>
        <Unsound />
        {children}
      </main>
      <Dialog title="The job" open={jobOpen} onClose={() => setJobOpen(false)}>
        <JobNav onGo={() => setJobOpen(false)} />
      </Dialog>
      <Suspense>{finding && <FindDialog open onClose={() => setFinding(false)} />}</Suspense>
      <AuthorPrompt />
    </div>
  )
}

function NotFetched({ again, onClose }: { readonly again: () => void; readonly onClose: () => void }): ReactNode {
  return (
    <Dialog
      title="Not fetched yet"
      open
      onClose={onClose}
      actions={
        <>
          <Button kind="primary" onPress={again}>
            Try again
          </Button>
          <Button onPress={onClose}>Close</Button>
        </>
      }
    >
      <p>This part of the app is not on this device yet, and it could not be fetched. Everything else goes on.</p>
    </Dialog>
  )
}

function JobButton({ onPress }: { readonly onPress: () => void }): ReactNode {
  const here = useLocation().pathname.split('/')[3] ?? ''
  const word = isPlace(here) ? PLACE_WORDS[here] : 'Job'
  return (
    <span className="bar-job">
      <Button onPress={onPress} name={`The job. Now: ${word}`}>
        {word}
        <span className="bar-job-mark" aria-hidden="true" />
      </Button>
    </span>
  )
}

function Where(): ReactNode {
  const { state } = useInvestigation()
  const opened = state.brief.opened?.body
  const title = [opened?.title ?? 'Untitled investigation', opened?.locality]
    .filter((part) => part !== undefined && part !== '')
    .join(', ')
  const rounds = [...state.plan.rounds.values()]
  return (
    <>
      <span>{title}</span>
      <span className="bar-round">{roundWords(rounds.at(-1)?.body)}</span>
    </>
  )
}

function roundWords(round: { readonly round: string; readonly purpose: string } | undefined): string {
  if (round === undefined) return 'before the first round'
  return round.purpose === 'initial' ? 'initial round' : `round ${round.round}`
}

/** Worked out once for both places that show it. */
function useClock(): RunningClock | undefined {
  const { state, version } = useInvestigation()
  const now = useNow()
  // oxlint-disable-next-line react-hooks/exhaustive-deps -- the state is extended in place; the version tells when
  return useMemo(() => earliestClock(state, now), [version, now])
}

function Clock({ clock }: { readonly clock: RunningClock | undefined }): ReactNode {
  if (clock === undefined) return null
  return (
    <span className="bar-clock" data-late={clock.late || undefined} data-still="blank">
      {clock.about}: <b>{clock.left}</b>
    </span>
  )
}

function Sync(): ReactNode {
  const { sync } = useInvestigation()
  return (
    <>
      <span className="bar-sync" role="status" data-still="opening">
        {sync.refused.length > 0 ? <b className="bar-refused">{sync.words}</b> : sync.words}
      </span>
      {sync.clock !== undefined && (
        <span className="bar-sync" data-still="blank">
          {sync.clock}
        </span>
      )}
    </>
  )
}

/** Above every screen: what this device holds was not written by whom it says, or was changed since. */
function Unsound(): ReactNode {
  const { id: investigation, sync } = useInvestigation()
  if (sync.unsound === undefined) return null
  const { sequence, reason } = sync.unsound
  return (
    <div className="app-line app-line-bad" role="alert">
      <span>
        Entry {sequence} of this record does not hold: {reason}. Do not rely on it before a lead has compared the record
        with another copy.
      </span>
      <Link to="/i/$investigation/record" params={{ investigation }} search={{ show: String(sequence) }}>
        See it in Record
      </Link>
    </div>
  )
}
