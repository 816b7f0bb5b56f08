import { shapeOf } from '@rillmark/casebook/building/quick-description.ts'
import type { ReactNode } from 'react'
import { FormRow } from '../kit/FormRow.tsx'
import { NumberField } from '../kit/NumberField.tsx'
import { QuantityField } from '../form/QuantityField.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { Section } from '../kit/Section.tsx'
import { Select } from '../kit/Select.tsx'
import { TextField } from '../kit/TextField.tsx'
import { OutletCounts } from './OutletCounts.tsx'
import { HeaterRows, OverrideRows } from './QuickRows.tsx'
import { type QuickDraft, quickSoFar } from './quick-draft.ts'
import { DISINFECTANT_CHOICES } from './words.ts'

export interface QuickFormProps {
  readonly draft: QuickDraft
  readonly onChange: (draft: QuickDraft) => void
  /** What is missing or wrong at a path of the description; asked for once someone tried to describe. */
  readonly issueAt: (path: string) => string | undefined
}

/** What a facility's water person can answer in two minutes, in the order they would tell it. */
export function QuickForm(props: QuickFormProps): ReactNode {
  const set = (change: Partial<QuickDraft>): void => props.onChange({ ...props.draft, ...change })
  const part = { ...props, set }
  return (
    <div className="quick-form">
      <Shape {...part} />
      <Outlets {...part} />
      <HotWater {...part} />
      <Supply {...part} />
      <Pipes {...part} />
    </div>
  )
}

type PartProps = QuickFormProps & { readonly set: (change: Partial<QuickDraft>) => void }

function Shape({ draft, set, issueAt }: PartProps): ReactNode {
  return (
    <Section title="The building">
      <FormRow>
        <TextField
          label="Name"
          value={draft.name}
          onChange={(name) => set({ name })}
          issue={issueAt('name')}
          required
        />
      </FormRow>
      <FormRow>
        <NumberField
          label="Floors"
          value={draft.floors}
          onChange={(floors) => set({ floors })}
          issue={issueAt('floors')}
          whole
          min={1}
          max={200}
          required
        />
        <NumberField
          label="Lowest of them"
          hint="Negative is below ground."
          value={draft.firstFloor}
          onChange={(firstFloor) => set({ firstFloor })}
          whole
          min={-10}
          max={10}
        />
        <TextField
          label="Risers"
          hint="How many, or their names: A, B, East"
          value={draft.risers}
          onChange={(risers) => set({ risers })}
          issue={issueAt('risers')}
          required
          width="narrow"
        />
      </FormRow>
      <RadioRow
        label="Plant (heaters, tanks)"
        value={draft.plant}
        onChange={(plant) => set({ plant })}
        choices={[
          { id: 'bottom', label: 'at the bottom' },
          { id: 'roof', label: 'on the roof' },
        ]}
      />
    </Section>
  )
}

function Outlets({ draft, set }: PartProps): ReactNode {
  const drawn = quickSoFar(draft)
  const shape = drawn === undefined ? undefined : shapeOf(drawn)
  return (
    <Section title="Outlets on each floor of each riser">
      <OutletCounts counts={draft.outlets} onChange={(outlets) => set({ outlets })} />
      <p className="quiet">Where a floor or riser differs, say so; the last row that names a place counts.</p>
      <OverrideRows
        overrides={draft.overrides}
        onChange={(overrides) => set({ overrides })}
        floors={shape?.floors ?? []}
        risers={shape?.risers ?? []}
      />
    </Section>
  )
}

function HotWater({ draft, set, issueAt }: PartProps): ReactNode {
  return (
    <Section title="Hot water">
      <HeaterRows heaters={draft.heaters} onChange={(heaters) => set({ heaters })} />
      <RadioRow
        label="Does hot water go round?"
        value={draft.recirculation}
        onChange={(recirculation) => set({ recirculation })}
        issue={issueAt('recirculation')}
        choices={[
          { id: 'per-riser', label: 'yes, a return on each riser' },
          { id: 'whole', label: 'yes, one loop; risers hang off it' },
          { id: 'none', label: 'no' },
        ]}
      />
      <RadioRow
        label="Is it mixed down?"
        value={draft.mixing}
        onChange={(mixing) => set({ mixing })}
        issue={issueAt('mixing')}
        choices={[
          { id: 'none', label: 'no' },
          { id: 'central', label: 'centrally, one valve' },
          { id: 'point-of-use', label: 'at showers, basins and baths' },
        ]}
      />
    </Section>
  )
}

function Supply({ draft, set, issueAt }: PartProps): ReactNode {
  return (
    <Section title="Cold water and its disinfectant">
      <FormRow>
        <Select
          label="Disinfectant of the supply"
          hint="Decides the test kit and the neutralizer."
          value={draft.disinfectant}
          onChange={(disinfectant) => set({ disinfectant })}
          issue={issueAt('supply.disinfectant')}
          choices={DISINFECTANT_CHOICES}
          required
        />
        <NumberField
          label="Residual"
          unit="mg/L"
          value={draft.residual}
          onChange={(residual) => set({ residual })}
          min={0}
        />
      </FormRow>
      <FormRow>
        <QuantityField label="Arrives at" unit="°C" value={draft.supplyC} onChange={(supplyC) => set({ supplyC })} />
        <NumberField label="pH" value={draft.pH} onChange={(pH) => set({ pH })} min={0} max={14} />
      </FormRow>
      <RadioRow
        label="Cold tank"
        value={draft.coldTank}
        onChange={(coldTank) => set({ coldTank })}
        choices={[
          { id: 'no', label: 'none' },
          { id: 'yes', label: 'the water is stored first' },
        ]}
      />
      {draft.coldTank === 'yes' && (
        <QuantityField
          label="Volume of the tank"
          unit="L"
          value={draft.coldTankL}
          onChange={(coldTankL) => set({ coldTankL })}
          min={0}
        />
      )}
    </Section>
  )
}

const MATERIALS = ['copper', 'plastic', 'steel', 'unknown'] as const
const INSULATION = ['none', 'thin', 'good', 'unknown'] as const

function Pipes({ draft, set }: PartProps): ReactNode {
  return (
    <Section title="Pipes">
      <FormRow>
        <Select
          label="Material"
          value={draft.material}
          onChange={(material) => set({ material })}
          choices={MATERIALS.map((id) => ({ id, label: id }))}
          width="narrow"
        />
        <Select
          label="Insulation"
          value={draft.insulation}
          onChange={(insulation) => set({ insulation })}
          choices={INSULATION.map((id) => ({ id, label: id }))}
          width="narrow"
        />
      </FormRow>
    </Section>
  )
}
