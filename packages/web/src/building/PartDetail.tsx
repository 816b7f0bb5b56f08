import { allKnown, nowKnown } from '@rillmark/casebook/building/changed-system.ts'
import { componentName, kindWord } from '@rillmark/casebook/building/labels.ts'
import type { Component, KnownBy, WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { knownByOf } from '@rillmark/casebook/building/water-system.ts'
import { factsOf } from '@rillmark/casebook/building/weakest-known.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { Menu } from '../kit/Menu.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { usePreferences } from '../store/preferences.tsx'
import { AddPartDialog } from './AddPartDialog.tsx'
import { AddPipeDialog } from './AddPipeDialog.tsx'
import type { Selected } from './BuildingInHand.tsx'
import { FactsForm } from './FactsForm.tsx'
import { FactsView } from './FactsView.tsx'
import { COMPONENT_LABELS, componentFields, componentFrom } from './facts.ts'
import { PartPipes } from './PartPipes.tsx'
import { RemoveDialog } from './RemoveDialog.tsx'
import { componentLines } from './fact-lines.ts'
import { useEdit } from './use-edit.ts'
import { capital, KNOWN_CHOICES, placeWords } from './words.ts'

export interface PartDetailProps {
  readonly system: WaterSystem
  readonly id: string
  readonly onSelect: (selected: Selected | undefined) => void
  readonly onHover: (id: string | undefined) => void
}

/** One part: what is said of it, how each fact is known, its pipes, and the acts on it. */
export function PartDetail({ system, id, onSelect, onHover }: PartDetailProps): ReactNode {
  const part = system.components.find((one) => one.id === id)
  const edit = useEdit()
  const { units } = usePreferences()
  const [open, setOpen] = useState<'facts'>()
  const [refused, setRefused] = useState<readonly Issue[]>([])
  if (part === undefined) return null
  const name = componentName(part)
  const put = async (component: Component, how: { said: string; why?: string }): Promise<readonly Issue[]> => {
    const issues = await edit({ changes: [{ change: 'put-component', component }], ...how })
    setRefused(issues)
    return issues
  }
  const mark = (fact: string, known: KnownBy): void =>
    void put(nowKnown(part, { facts: [fact], known }), {
      said: `${name}: ${(COMPONENT_LABELS[fact] ?? fact).toLowerCase()} ${known}.`,
    })
  const close = (): void => setOpen(undefined)

  return (
    <>
      <div>
        <Button kind="text" onPress={() => onSelect(undefined)}>
          Back to the whole building
        </Button>
        <PageHead title={capital(name)} name={`${name} · Building`} lead={leadOf(part, system)} />
      </div>
      <ProblemList problems={refused} />
      {open === 'facts' ? (
        <FactsForm
          system={system}
          thing={part}
          fields={componentFields}
          read={componentFrom}
          onRecord={(next, why) => put(next, { said: `${name} changed.`, why })}
          onClose={close}
        />
      ) : (
        <>
          <FactsView facts={componentLines(part, units)} onKnown={mark} />
          <ButtonRow>
            <Button kind="primary" onPress={() => setOpen('facts')}>
              Change facts
            </Button>
            <Menu
              label="Everything here is …"
              items={KNOWN_CHOICES}
              onChoose={(known) => void put(allKnown(part, known), { said: `Every fact of ${name} is ${known}.` })}
            />
          </ButtonRow>
        </>
      )}
      <PartPipes system={system} id={id} onSelect={onSelect} onHover={onHover} />
      <PartActs system={system} part={part} onSelect={onSelect} />
    </>
  )
}

/** What joins it, what stands beside it, and taking it out. */
function PartActs(props: {
  readonly system: WaterSystem
  readonly part: Component
  readonly onSelect: PartDetailProps['onSelect']
}): ReactNode {
  const { system, part, onSelect } = props
  const [open, setOpen] = useState<'beside' | 'pipe' | 'remove'>()
  const close = (): void => setOpen(undefined)
  return (
    <>
      <ButtonRow>
        <Button onPress={() => setOpen('pipe')}>Add a pipe from here</Button>
        <Button onPress={() => setOpen('beside')}>Add a part beside it</Button>
        <Button kind="danger" onPress={() => setOpen('remove')}>
          Take it out
        </Button>
      </ButtonRow>
      {open === 'beside' && (
        <AddPartDialog
          system={system}
          beside={part}
          onClose={close}
          onAdded={(added) => onSelect({ kind: 'part', id: added })}
        />
      )}
      {open === 'pipe' && <AddPipeDialog system={system} from={part.id} onClose={close} />}
      {open === 'remove' && (
        <RemoveDialog system={system} part={part} onClose={close} onRemoved={() => onSelect(undefined)} />
      )}
    </>
  )
}

/** `Shower · floor 6 · riser C · room 605. 3 of 6 facts guessed.` */
function leadOf(part: Component, system: WaterSystem): string {
  const kind = kindWord(part.kind)
  const place = placeWords(part, system)
  const facts = factsOf(part)
  const guessed = facts.filter((fact) => knownByOf(part, fact) === 'guessed').length
  const sure = guessed === 0 ? '' : ` ${guessed} of ${facts.length} facts guessed.`
  return `${capital(kind)}${place === '' ? '' : ` · ${place}`}.${sure}`
}
