import { findStop } from '@rillmark/casebook/fieldwork/stops.ts'
import { roundProgress } from '@rillmark/casebook/fieldwork/round-progress.ts'
import { type ReactNode, Suspense, useEffect, useMemo, useState } from 'react'
import { AtHand } from '../calculators/AtHand.tsx'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { EmptyState } from '../kit/EmptyState.tsx'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { Select } from '../kit/Select.tsx'
import { useShow } from '../shell/useShow.ts'
import { soundAfterFirstTouch } from '../signal/signal.ts'
import { useInvestigation } from '../store/investigation.tsx'
import { AddStopDialog } from './AddStopDialog.tsx'
import { DeviationList } from './DeviationList.tsx'
import { lazyPart } from '../shell/lazy-part.tsx'
import { useDraft } from './use-draft.ts'
import { fieldOffers } from './field-offers.ts'
import './fieldwork.css'
import { InstrumentDialog } from './InstrumentDialog.tsx'
import { QualityPart } from './QualityPart.tsx'
import { StopList } from './StopList.tsx'
import { StopVisit } from './StopVisit.tsx'
import { TeamPart } from './TeamPart.tsx'
import { useWide } from './use-wide.ts'

const FieldDiagram = lazyPart(async () => ({ default: (await import('./FieldDiagram.tsx')).FieldDiagram }))

/** Fieldwork: the stops of a round, one at a time, one step at a time. */
export function FieldworkScreen(): ReactNode {
  const { state } = useInvestigation()
  if (state.plan.rounds.size === 0)
    return (
      <Page>
        <PageHead title="Fieldwork" />
        <EmptyState title="There are no stops yet">
          <p>
            Adopt a plan first. Its stops then come one at a time, step by step, in the order that keeps the samples
            sound.
          </p>
        </EmptyState>
      </Page>
    )
  return <Walk />
}

function Walk(): ReactNode {
  const { id, state, version, device } = useInvestigation()
  useEffect(() => soundAfterFirstTouch(), [])
  const wide = useWide()
  const place = useDraft(`${id}/walk`)
  const rounds = [...state.plan.rounds.keys()]
  const round = rounds.find((code) => code === place.get('round')) ?? rounds.at(-1) ?? 'R1'
  const team = Number(place.get('team')) || undefined
  // oxlint-disable-next-line react-hooks/exhaustive-deps -- the state is extended in place; the version tells when
  const progress = useMemo(() => roundProgress(state, { round, team, device }), [version, round, team, device])
  // oxlint-disable-next-line react-hooks/exhaustive-deps -- as above
  const offers = useMemo(() => fieldOffers(state, { round }), [version, round])
  const kept = place.get('stop')
  const stop = progress.stops.some((one) => one.stop.id === kept) ? kept : undefined
  const go = (next: string | undefined): void => {
    place.set({ stop: next ?? '' })
    window.scrollTo({ top: 0 })
  }
  useShownStop(go)
  const list = (
    <div className="field-list">
      <PageHead title="Fieldwork" />
      <WalkChoice round={round} rounds={rounds} team={team} set={place.set} />
      <StopList progress={progress} selected={stop} onSelect={go} />
      <QualityPart round={round} />
      <WalkActs round={round} onGo={go} />
      <TeamPart round={round} onGo={go} />
      <DeviationList round={round} onGo={go} />
      <AtHand about="fieldwork" offers={offers} />
    </div>
  )
  const visit =
    stop === undefined ? undefined : (
      <StopVisit key={`${round}/${stop}`} at={{ round, stop }} progress={progress} onGo={go} />
    )
  if (!wide) return visit ?? list
  return (
    <div className="field-desk">
      {list}
      {visit !== undefined && <div className="field-desk-visit">{visit}</div>}
      <div className="field-desk-drawing" data-still="blank">
        <Suspense>
          <FieldDiagram progress={progress} stop={stop} onSelect={go} />
        </Suspense>
      </div>
    </div>
  )
}

/** The address may ask for a stop by its id, or by the place or a label it has. */
function useShownStop(go: (stop: string) => void): void {
  const { state } = useInvestigation()
  const show = useShow()
  useEffect(() => {
    if (show === undefined) return
    for (const round of state.plan.rounds.keys()) {
      const stops = state.plan.rounds.get(round)?.body.plan.stops ?? []
      const found = stops.find(
        ({ id, component, samples }) =>
          id === show || component === show || samples.some(({ label }) => label === show),
      )
      if (found !== undefined && findStop(state, { round, stop: found.id }) !== undefined) go(found.id)
    }
    // oxlint-disable-next-line react-hooks/exhaustive-deps -- once for each address
  }, [show])
}

function WalkChoice(props: {
  readonly round: string
  readonly rounds: readonly string[]
  readonly team: number | undefined
  readonly set: (fields: Record<string, string>) => void
}): ReactNode {
  const { state } = useInvestigation()
  const { round, rounds, team, set } = props
  const planned = state.plan.rounds.get(round)?.body
  const teams = [...new Set(planned?.plan.stops.flatMap((stop) => stop.team ?? []))].sort((a, b) => a - b)
  if (rounds.length < 2 && teams.length < 2) return null
  return (
    <div className="field-choice">
      {rounds.length > 1 && (
        <Select
          label="Round"
          value={round}
          onChange={(next) => set({ round: next, stop: '' })}
          choices={rounds.map((code) => ({ id: code, label: `${code}, ${state.plan.rounds.get(code)?.body.purpose}` }))}
        />
      )}
      {teams.length > 1 && (
        <Select
          label="Walk of"
          value={String(team ?? 'all')}
          onChange={(next) => set({ team: next === 'all' ? '' : next })}
          choices={[
            { id: 'all', label: 'all teams' },
            ...teams.map((one) => ({ id: String(one), label: planned?.teams[one - 1] ?? `team ${one}` })),
          ]}
        />
      )}
    </div>
  )
}

function WalkActs({ round, onGo }: { readonly round: string; readonly onGo: (stop: string) => void }): ReactNode {
  const [open, setOpen] = useState<'stop' | 'instrument'>()
  return (
    <>
      <ButtonRow>
        <Button onPress={() => setOpen('stop')}>Add a stop</Button>
        <Button onPress={() => setOpen('instrument')}>Register an instrument</Button>
      </ButtonRow>
      {open === 'instrument' && <InstrumentDialog onClose={() => setOpen(undefined)} />}
      {open === 'stop' && (
        <AddStopDialog
          round={round}
          onClose={(stop) => {
            setOpen(undefined)
            if (stop !== undefined) onGo(stop)
          }}
        />
      )}
    </>
  )
}
