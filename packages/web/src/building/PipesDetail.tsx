import { allKnown, nowKnown } from '@rillmark/casebook/building/changed-system.ts'
import { cutOffBy } from '@rillmark/casebook/building/remove-part.ts'
import type { SystemChange } from '@rillmark/casebook/building/kinds.ts'
import type { KnownBy, Pipe, WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { Menu } from '../kit/Menu.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { Section } from '../kit/Section.tsx'
import { usePreferences } from '../store/preferences.tsx'
import type { Selected } from './BuildingInHand.tsx'
import { ConfirmRemoval } from './ConfirmRemoval.tsx'
import { FactsForm } from './FactsForm.tsx'
import { FactsView } from './FactsView.tsx'
import { PIPE_FIELDS, PIPE_LABELS, pipeFrom } from './facts.ts'
import { pipeLines } from './fact-lines.ts'
import { useEdit } from './use-edit.ts'
import { capital, circuitWord, KNOWN_CHOICES, nameIn } from './words.ts'

const MOST_OPEN = 6

export interface PipesDetailProps {
  readonly system: WaterSystem
  readonly ids: readonly string[]
  readonly onSelect: (selected: Selected | undefined) => void
}

/** One pipe, or the pipes that are one line on the drawing. */
export function PipesDetail({ system, ids, onSelect }: PipesDetailProps): ReactNode {
  const pipes = system.pipes.filter(({ id }) => ids.includes(id))
  const [first] = pipes
  const title = pipes.length === 1 && first !== undefined ? nameOf(system, first) : counted(pipes.length, 'pipe')
  return (
    <>
      <div>
        <Button kind="text" onPress={() => onSelect(undefined)}>
          Back to the whole building
        </Button>
        <PageHead
          title={title}
          name="Pipes · Building"
          lead={pipes.length > 1 ? 'They lie on one line of the drawing.' : undefined}
        />
      </div>
      {pipes.length <= MOST_OPEN
        ? pipes.map((pipe) => (
            <OnePipe key={pipe.id} system={system} pipe={pipe} onSelect={onSelect} alone={pipes.length === 1} />
          ))
        : pipes.map((pipe) => (
            <Button key={pipe.id} kind="text" onPress={() => onSelect({ kind: 'pipes', ids: [pipe.id] })}>
              {nameOf(system, pipe)}, {pipe.lengthM} m
            </Button>
          ))}
    </>
  )
}

const nameOf = (system: WaterSystem, pipe: Pipe): string =>
  pipe.label ?? `${capital(circuitWord(pipe.circuit))} pipe, ${nameIn(system, pipe.from)} to ${nameIn(system, pipe.to)}`

interface OnePipeProps extends Omit<PipesDetailProps, 'ids'> {
  readonly pipe: Pipe
  readonly alone: boolean
}

function OnePipe(props: OnePipeProps): ReactNode {
  const { system, pipe, onSelect, alone } = props
  const edit = useEdit()
  const { units } = usePreferences()
  const [open, setOpen] = useState<'facts' | 'remove'>()
  const [refused, setRefused] = useState<readonly Issue[]>([])
  const name = nameOf(system, pipe)
  const put = async (next: Pipe, how: { said: string; why?: string }): Promise<readonly Issue[]> => {
    const issues = await edit({ changes: [{ change: 'put-pipe', pipe: next }], ...how })
    setRefused(issues)
    return issues
  }
  const mark = (fact: string, known: KnownBy): void =>
    void put(nowKnown(pipe, { facts: [fact], known }), {
      said: `${name}: ${(PIPE_LABELS[fact] ?? fact).toLowerCase()} ${known}.`,
    })
  const removal: SystemChange[] = [{ change: 'remove-pipe', id: pipe.id }]
  const body =
    open === 'facts' ? (
      <FactsForm
        system={system}
        thing={pipe}
        fields={() => PIPE_FIELDS}
        read={pipeFrom}
        onRecord={(next, why) => put(next, { said: `${name} changed.`, why })}
        onClose={() => setOpen(undefined)}
      />
    ) : (
      <>
        <FactsView facts={pipeLines(pipe, { system, units })} onKnown={mark} />
        <ButtonRow>
          <Button kind={alone ? 'primary' : 'quiet'} onPress={() => setOpen('facts')}>
            Change facts
          </Button>
          <Menu
            label="Everything here is …"
            items={KNOWN_CHOICES}
            onChoose={(known) => void put(allKnown(pipe, known), { said: `Every fact of the pipe is ${known}.` })}
          />
          <Button onPress={() => onSelect({ kind: 'part', id: pipe.from })}>Go to {nameIn(system, pipe.from)}</Button>
          <Button onPress={() => onSelect({ kind: 'part', id: pipe.to })}>Go to {nameIn(system, pipe.to)}</Button>
          <Button kind="danger" onPress={() => setOpen('remove')}>
            Take it out
          </Button>
        </ButtonRow>
      </>
    )
  return (
    <>
      <ProblemList problems={refused} />
      {alone ? body : <Section title={name}>{body}</Section>}
      {open === 'remove' && (
        <ConfirmRemoval
          title="Take this pipe out?"
          words={name}
          removal={{ changes: removal, pipes: [], cutOff: cutOffBy(system, removal) }}
          onClose={() => setOpen(undefined)}
          onRemoved={() => onSelect(undefined)}
        />
      )}
    </>
  )
}
