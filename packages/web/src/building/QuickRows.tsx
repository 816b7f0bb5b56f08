import type { ReactNode } from 'react'
import { QuantityField } from '../form/QuantityField.tsx'
import { Select } from '../kit/Select.tsx'
import { OutletCounts } from './OutletCounts.tsx'
import type { HeaterDraft, OverrideDraft } from './quick-draft.ts'
import { RowList } from './RowList.tsx'

const HEATER_KINDS = [
  { id: 'storage', label: 'storage heater' },
  { id: 'instant', label: 'instant heater' },
] as const

/** The heaters, one row each. */
export function HeaterRows(props: {
  readonly heaters: readonly HeaterDraft[]
  readonly onChange: (heaters: readonly HeaterDraft[]) => void
}): ReactNode {
  const { heaters, onChange } = props
  return (
    <RowList<HeaterDraft>
      rows={heaters}
      onChange={onChange}
      noun="heater"
      add={{
        words: heaters.length === 0 ? 'Add a heater' : 'Add another like it',
        row: () => ({ kind: 'storage', label: '', volumeL: '', setpointC: '', ...lastOf(heaters) }),
      }}
    >
      {(heater, set) => ({
        fields: (
          <>
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
          </>
        ),
      })}
    </RowList>
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
    <RowList<OverrideDraft>
      rows={overrides}
      onChange={onChange}
      noun="different place"
      add={{
        words: 'Add a place that differs',
        row: () => ({ riser: '', floor: String(floors[0] ?? ''), outlets: {} }),
        disabled: floors.length === 0 || risers.length === 0,
      }}
    >
      {(override, set) => ({
        fields: (
          <>
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
          </>
        ),
        below: <OutletCounts counts={override.outlets} onChange={(outlets) => set({ outlets })} />,
      })}
    </RowList>
  )
}

const EVERY = 'every'
const chosen = (value: string): string => (value === '' ? EVERY : `=${value}`)
const plain = (id: string): string => (id === EVERY ? '' : id.slice(1))
