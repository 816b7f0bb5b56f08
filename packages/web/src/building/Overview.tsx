import { checkSystem } from '@rillmark/casebook/building/check-system.ts'
import { isOutlet, type KnownBy, type WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { countKnown } from '@rillmark/casebook/building/weakest-known.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import { type ReactNode, useDeferredValue, useMemo, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { Mark } from '../kit/Mark.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { Section } from '../kit/Section.tsx'
import { AddPartDialog } from './AddPartDialog.tsx'
import type { Selected } from './BuildingInHand.tsx'
import { MoreMenu } from './MoreMenu.tsx'
import { PartList } from './PartList.tsx'
import { Problems } from './Problems.tsx'
import { SupplySection } from './SupplySection.tsx'
import type { PartFilter } from './part-filter.ts'
import { KNOWN_SHAPES } from './words.ts'

export interface OverviewProps {
  readonly system: WaterSystem
  readonly filter: PartFilter
  readonly onFilter: (filter: PartFilter) => void
  readonly lit: string | undefined
  readonly onHover: (id: string | undefined) => void
  readonly onSelect: (selected: Selected | undefined) => void
  readonly onDescribeAnew: () => void
}

/** The building as a whole: how big, how sure, what is wrong, and every part by name. */
export function Overview(props: OverviewProps): ReactNode {
  const { system, onSelect } = props
  const [adding, setAdding] = useState(false)
  const checked = useDeferredValue(system)
  const problems = useMemo(() => checkSystem(checked), [checked])
  return (
    <>
      <PageHead title={headline(system)} name="Building" lead={<KnownCounts system={system} />} />
      <ButtonRow>
        <Button onPress={() => setAdding(true)}>Add a part</Button>
        <MoreMenu system={system} onDescribeAnew={props.onDescribeAnew} />
      </ButtonRow>
      <Problems system={checked} problems={problems} onSelect={onSelect} />
      <SupplySection system={system} />
      <Section title="Parts">
        <PartList {...props} />
      </Section>
      {adding && (
        <AddPartDialog
          system={system}
          onClose={() => setAdding(false)}
          onAdded={(id) => onSelect({ kind: 'part', id })}
        />
      )}
    </>
  )
}

function headline({ name, components }: WaterSystem): string {
  const outlets = components.filter(isOutlet)
  const risers = new Set(outlets.map(({ riser }) => riser).filter((riser) => riser !== undefined))
  return `${name}: ${counted(outlets.length, 'outlet')} on ${counted(risers.size, 'riser')}`
}

const ORDER: readonly (KnownBy | undefined)[] = ['seen', 'told', 'drawn', 'guessed', undefined]

/** "Of 1,204 facts 4 seen, 212 told, 988 guessed." */
function KnownCounts({ system }: { readonly system: WaterSystem }): ReactNode {
  const counts = useMemo(() => countKnown([...system.components, ...system.pipes, system.supply]), [system])
  const total = [...counts.values()].reduce((sum, count) => sum + count, 0)
  const said = ORDER.filter((known) => known === 'seen' || counts.has(known))
  return (
    <span className="known-counts">
      <span>Of {total} facts</span>
      {said.map((known) => (
        <span key={known ?? 'not said'} className="known">
          <Mark shape={KNOWN_SHAPES[known ?? 'not said']} />
          {counts.get(known) ?? 0} {known ?? 'without a word how'}
        </span>
      ))}
    </span>
  )
}
