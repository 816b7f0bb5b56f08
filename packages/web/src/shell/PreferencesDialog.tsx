import {
  type DisplayUnits,
  UNIT_CHOICES,
  type UnitSystem,
  displayUnitsFrom,
  systemOf,
  unitsOf,
} from '@rillmark/casebook/units/display-units.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useAuthor } from '../store/author.tsx'
import { usePreferences } from '../store/preferences.tsx'
import { THEMES } from '../store/theme.ts'

const THEME_WORDS = { system: 'as the device', light: 'light', dark: 'dark', contrast: 'high contrast' } as const
const UNIT_WORDS: Readonly<Record<keyof DisplayUnits, string>> = {
  temperature: 'Temperatures in',
  volume: 'Volumes and flows in',
  bore: 'Bores and insulation in',
  length: 'Lengths in',
  mass: 'Masses in',
  count: 'Counts in water',
}
const SINGLE = ['temperature', 'volume', 'bore', 'length', 'mass'] as const
const SYSTEMS = [
  { id: 'metric', label: 'metric' },
  { id: 'us', label: 'US customary' },
  { id: 'own', label: 'each by itself' },
] as const

/** Theme, display units and who is writing. Kept on this device only. */
export function PreferencesDialog(props: { readonly open: boolean; readonly onClose: () => void }): ReactNode {
  const { theme, units, setTheme, setUnits } = usePreferences()
  const author = useAuthor()
  const [name, setName] = useState(author.name)
  const close = (): void => {
    if (name.trim() !== '') author.setName(name.trim())
    props.onClose()
  }
  return (
    <Dialog
      title="Preferences"
      open={props.open}
      onClose={close}
      actions={
        <Button kind="primary" onPress={close}>
          Done
        </Button>
      }
    >
      <div className="form">
        <RadioRow
          label="Look"
          value={theme}
          onChange={setTheme}
          choices={THEMES.map((id) => ({ id, label: THEME_WORDS[id] }))}
        />
        <UnitChoice units={units} onChange={setUnits} />
        <TextField
          label="Who is writing"
          hint="Goes on every entry made on this device from now on."
          value={name}
          onChange={setName}
        />
        <p className="faint">
          Units change what is shown and typed, here and in the papers you get. The record keeps °C, L, mm, m and kg,
          and every count as it was reported.
        </p>
      </div>
    </Dialog>
  )
}

interface UnitsProps {
  readonly units: DisplayUnits
  readonly onChange: (units: DisplayUnits) => void
}

/** A system with one tap; single units where someone likes a mixture. */
function UnitChoice({ units, onChange }: UnitsProps): ReactNode {
  const system = systemOf(units)
  const [single, setSingle] = useState(system === undefined)
  const choose = (id: UnitSystem | 'own'): void => {
    setSingle(id === 'own')
    if (id !== 'own') onChange({ ...unitsOf(id), count: units.count })
  }
  return (
    <>
      <RadioRow
        label="Units"
        value={single || system === undefined ? 'own' : system}
        onChange={choose}
        choices={SYSTEMS}
      />
      {single && SINGLE.map((of) => <UnitRow key={of} of={of} units={units} onChange={onChange} />)}
      <UnitRow of="count" units={units} onChange={onChange} />
    </>
  )
}

function UnitRow({ of, units, onChange }: UnitsProps & { readonly of: keyof DisplayUnits }): ReactNode {
  const choices: readonly string[] = UNIT_CHOICES[of]
  return (
    <RadioRow
      label={UNIT_WORDS[of]}
      value={units[of]}
      onChange={(unit: string) => onChange(displayUnitsFrom({ ...units, [of]: unit }))}
      choices={choices.map((id) => ({ id, label: id }))}
    />
  )
}
