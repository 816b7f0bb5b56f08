import type { ReactNode } from 'react'
import { Button } from '../kit/Button.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { QuantityField } from '../form/QuantityField.tsx'
import { Select } from '../kit/Select.tsx'
import { OutletCounts } from './OutletCounts.tsx'
import type { HeaterDraft, OverrideDraft } from './quick-draft.ts'

const HEATER_KINDS = [
  { id: 'storage', label: 'storage heater' },
  { id: 'instant', label: 'instant heater' },
] as const

const replaced = <T,>(rows: readonly T[], { at, next }: { at: number; next: T }): T[] =>
  rows.map((row, index) => (index === at ? next : row))
const without = <T,>(rows: readonly T[], at: number): T[] => rows.filter((_, index) => index !== at)

/** The heaters, one row each. */
export function HeaterRows(props: {
  readonly heaters: readonly HeaterDraft[]
  readonly onChange: (heaters: readonly HeaterDraft[]) => void
}): ReactNode {
  const { heaters, onChange } = props
  return (
    <div className="quick-rows">
      {heaters.map((heater, at) => {
        const set = (change: Partial<HeaterDraft>): void =>
          onChange(replaced(heaters, { at, next: { ...heater, ...change } }))
        return (
          // oxlint-disable-next-line react/no-array-index-key -- rows have no name but their place
          <fieldset key={at} className="quick-row">
            <legend>Heater {at + 1}</legend>
            <FormRow>
              <Select
                label="Kind"
                value={heater.kind}
                onChange={(kind) => set({ kind })}
                choices={HEATER_KINDS}
                width="narrow"
              />
              {heater.kind === 'storage' && (
                <QuantityField
                  label="Volume"
                  unit="L"
                  value={heater.volumeL}
                  onChange={(volumeL) => set({ volumeL })}
                  min={0}
                />
              )}
              <QuantityField
                label="Set to"
                unit="°C"
                value={heater.setpointC}
                onChange={(setpointC) => set({ setpointC })}
                min={0}
                max={100}
              />
              <Button kind="text" name={`Take heater ${at + 1} away`} onPress={() => onChange(without(heaters, at))}>
                Take away
              </Button>
            </FormRow>
          </fieldset>
        )
      })}
      <Button
        onPress={() =>
          onChange([...heaters, { kind: 'storage', label: '', volumeL: '', setpointC: '', ...lastOf(heaters) }])
        }
      >
        {heaters.length === 0 ? 'Add a heater' : 'Add another like it'}
      </Button>
    </div>
  )
}

/** A second heater is usually like the first. */
function lastOf(heaters: readonly HeaterDraft[]): Partial<HeaterDraft> {
  const last = heaters.at(-1)
  return last === undefined ? {} : { kind: last.kind, volumeL: last.volumeL, setpointC: last.setpointC }
}

/** Floors and risers whose outlets differ from the usual ones. */
export function OverrideRows(props: {
  readonly overrides: readonly OverrideDraft[]
  readonly onChange: (overrides: readonly OverrideDraft[]) => void
  readonly floors: readonly number[]
  readonly risers: readonly string[]
}): ReactNode {
  const { overrides, onChange, floors, risers } = props
  const riserChoices = [
    { id: EVERY, label: 'every riser' },
    ...risers.map((riser) => ({ id: `=${riser}`, label: `riser ${riser}` })),
  ]
  const floorChoices = [
    { id: EVERY, label: 'every floor' },
    ...floors.map((floor) => ({ id: `=${floor}`, label: `floor ${floor}` })),
  ]
  return (
    <div className="quick-rows">
      {overrides.map((override, at) => {
        const set = (change: Partial<OverrideDraft>): void =>
          onChange(replaced(overrides, { at, next: { ...override, ...change } }))
        return (
          // oxlint-disable-next-line react/no-array-index-key -- rows have no name but their place
          <fieldset key={at} className="quick-row">
            <legend>Different place {at + 1}</legend>
            <FormRow>
              <Select
                label="On"
                value={chosen(override.floor)}
                onChange={(floor) => set({ floor: plain(floor) })}
                choices={floorChoices}
                width="narrow"
              />
              <Select
                label="Of"
                value={chosen(override.riser)}
                onChange={(riser) => set({ riser: plain(riser) })}
                choices={riserChoices}
                width="narrow"
              />
              <Button
                kind="text"
                name={`Take different place ${at + 1} away`}
                onPress={() => onChange(without(overrides, at))}
              >
                Take away
              </Button>
            </FormRow>
            <OutletCounts counts={override.outlets} onChange={(outlets) => set({ outlets })} />
          </fieldset>
        )
      })}
      <Button
        disabled={floors.length === 0 || risers.length === 0}
        onPress={() => onChange([...overrides, { riser: '', floor: String(floors[0] ?? ''), outlets: {} }])}
      >
        Add a place that differs
      </Button>
    </div>
  )
}

const EVERY = 'every'
const chosen = (value: string): string => (value === '' ? EVERY : `=${value}`)
const plain = (id: string): string => (id === EVERY ? '' : id.slice(1))
