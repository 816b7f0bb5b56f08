import { componentName } from '@rillmark/casebook/building/labels.ts'
import { type Component, isOutlet, type WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import type { Layer } from '@rillmark/casebook/drawing/layers.ts'
import { type ReactNode, useMemo } from 'react'
import { RiserDiagram } from '../drawing/RiserDiagram.tsx'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { groupsOf, type PlaceGroup } from './place-groups.ts'

/** Picks places of the building: whole risers, floors, zones and kinds at once, or one by one on the drawing. */
export function PlacePicker(props: {
  readonly system: WaterSystem
  readonly picked: ReadonlySet<string>
  readonly onPick: (picked: ReadonlySet<string>) => void
}): ReactNode {
  const { system, picked, onPick } = props
  const groups = useMemo(() => groupsOf(system), [system])
  const layer = useMemo(() => pickedLayer(system.components, picked), [system, picked])
  const toggle = (ids: readonly string[]): void => {
    const next = new Set(picked)
    const all = ids.every((id) => next.has(id))
    for (const id of ids) {
      if (all) next.delete(id)
      else next.add(id)
    }
    onPick(next)
  }
  return (
    <div className="place-picker">
      <p>
        <b>{picked.size === 0 ? 'The whole system' : `${picked.size} places`}</b>
        {picked.size === 0 && <span className="quiet"> unless places are picked here</span>}{' '}
        {picked.size > 0 && (
          <Button kind="text" onPress={() => onPick(new Set())}>
            Clear
          </Button>
        )}
      </p>
      {groups.map(({ name, members }) => (
        <PickRow key={name} name={name} members={members} picked={picked} onToggle={toggle} />
      ))}
      <p className="faint">Or press places on the drawing.</p>
      <RiserDiagram system={system} layer={layer} onSelect={(id) => toggle([id])} highlight={picked} />
    </div>
  )
}

function PickRow(props: {
  readonly name: string
  readonly members: readonly PlaceGroup[]
  readonly picked: ReadonlySet<string>
  readonly onToggle: (ids: readonly string[]) => void
}): ReactNode {
  const { name, members, picked, onToggle } = props
  return (
    <div className="pick-row">
      <span className="quiet">{name}</span>
      <ButtonRow>
        {members.map(({ label, ids }) => (
          <Button
            key={label}
            pressed={ids.every((id) => picked.has(id))}
            name={`${name} ${label}, ${ids.length} places`}
            onPress={() => onToggle(ids)}
          >
            {label} <span className="quiet">{ids.length}</span>
          </Button>
        ))}
      </ButtonRow>
    </div>
  )
}

function pickedLayer(components: readonly Component[], picked: ReadonlySet<string>): Layer {
  return {
    name: 'Picked places',
    marks: components
      .filter(({ id }) => picked.has(id))
      .map((component) => ({
        component: component.id,
        form: isOutlet(component) ? 'disc' : 'square',
        tone: 'accent',
        label: `${componentName(component)}, picked`,
      })),
    legend: [{ form: 'disc', tone: 'accent', text: 'picked' }],
  }
}
