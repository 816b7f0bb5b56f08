import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useAuthor } from '../store/author.tsx'
import { type DisplayUnits, THEMES, UNIT_CHOICES, usePreferences } from '../store/preferences.tsx'

const THEME_WORDS = { system: 'as the device', light: 'light', dark: 'dark', contrast: 'high contrast' } as const
const UNIT_WORDS: Readonly<Record<keyof DisplayUnits, string>> = {
  temperature: 'Temperatures in',
  volume: 'Volumes in',
  length: 'Pipe sizes in',
  count: 'Counts',
}

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
        <UnitRow of="temperature" units={units} onChange={setUnits} />
        <UnitRow of="volume" units={units} onChange={setUnits} />
        <UnitRow of="length" units={units} onChange={setUnits} />
        <UnitRow of="count" units={units} onChange={setUnits} />
        <TextField
          label="Who is writing"
          hint="Goes on every entry made on this device from now on."
          value={name}
          onChange={setName}
        />
        <p className="faint">Units change what is shown. The record keeps every value as it was given.</p>
      </div>
    </Dialog>
  )
}

function UnitRow<K extends keyof DisplayUnits>(props: {
  readonly of: K
  readonly units: DisplayUnits
  readonly onChange: (units: DisplayUnits) => void
}): ReactNode {
  const choices: readonly DisplayUnits[K][] = UNIT_CHOICES[props.of]
  return (
    <RadioRow
      label={UNIT_WORDS[props.of]}
      value={props.units[props.of]}
      onChange={(unit) => props.onChange({ ...props.units, [props.of]: unit })}
      choices={choices.map((id) => ({ id, label: id }))}
    />
  )
}
