import { type Hand, type TeamView, teamView, type WorkAtStop } from '@rillmark/casebook/fieldwork/team-view.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import { type ReactNode, useMemo } from 'react'
import { Disclosure } from '../kit/Disclosure.tsx'
import { Note } from '../kit/Note.tsx'
import { Section } from '../kit/Section.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { handWords, timeOf } from './hand-words.ts'

/** Who did what in a round: what is under way elsewhere in sight, the rest one tap away. */
export function TeamPart(props: { readonly round: string; readonly onGo: (stop: string) => void }): ReactNode {
  const { round, onGo } = props
  const { state, version, device } = useInvestigation()
  // oxlint-disable-next-line react-hooks/exhaustive-deps -- the state is extended in place; the version tells when
  const team = useMemo(() => teamView(state, round), [version, round])
  const elsewhere = team.underWay.filter(({ hand }) => hand.device !== device)
  if (team.hands.length === 0) return null
  return (
    <Section title="Who did what">
      {elsewhere.map((work) => (
        <WorkLine
          key={work.stop}
          work={work}
          words={`${handWords(work.hand)} is there, last entry ${timeOf(work)}`}
          onGo={onGo}
        />
      ))}
      <Shared team={team} />
      <Disclosure summary={summaryOf(team)}>
        {team.hands.map(({ hand, work }) => (
          <div key={`${hand.device} ${hand.author}`} className="field-hand">
            <h3>
              {handWords(hand)}
              {hand.device === device && <span className="faint"> on this device</span>}
            </h3>
            {work.map((one) => (
              <WorkLine key={one.stop} work={one} words={doneWords(one)} onGo={onGo} />
            ))}
          </div>
        ))}
      </Disclosure>
    </Section>
  )
}

const summaryOf = ({ hands }: TeamView): string => {
  const stops = new Set(hands.flatMap(({ work }) => work.map(({ stop }) => stop)))
  return `${counted(hands.length, { one: 'person', many: 'people' })} at ${counted(stops.size, 'stop')}`
}

function Shared({ team: { shared } }: { readonly team: TeamView }): ReactNode {
  return shared.map(({ stop, title, hands }) => (
    <Note key={stop}>
      {title}: {hands.map((hand: Hand) => handWords(hand)).join(' and ')} both wrote there.
    </Note>
  ))
}

function WorkLine(props: {
  readonly work: WorkAtStop
  readonly words: string
  readonly onGo: (stop: string) => void
}): ReactNode {
  const { work, words, onGo } = props
  return (
    <button type="button" className="field-work" onClick={() => onGo(work.stop)}>
      <b>{work.title}</b>
      <span className="faint">{words}</span>
    </button>
  )
}

function doneWords(work: WorkAtStop): string {
  const parts = [
    [work.samples, 'sample'],
    [work.readings, 'reading'],
    [work.deviations, 'deviation'],
    [work.photos, 'photo'],
  ] as const
  const told = parts.flatMap(([count, what]) => (count === 0 ? [] : [counted(count, what)]))
  return [timeOf(work), ...told].join(' · ')
}
