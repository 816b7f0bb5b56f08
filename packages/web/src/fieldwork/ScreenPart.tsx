import { type ReactNode, useState } from 'react'
import { CheckboxField } from '../kit/CheckboxField.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { chooseSignals, giveSignal, type SignalChoice, signalChoice } from '../signal/signal.ts'
import { usePreferences } from '../store/preferences.tsx'

const LOOKS = [
  { id: 'system', label: 'as the device' },
  { id: 'contrast', label: 'sun' },
  { id: 'light', label: 'light' },
  { id: 'dark', label: 'dark' },
] as const

/** How the screen looks in this light, and whether it may sound and vibrate. Tried at once when switched on. */
export function ScreenPart(): ReactNode {
  const { theme, setTheme } = usePreferences()
  const [choice, setChoice] = useState(signalChoice)
  const choose = (next: SignalChoice): void => {
    chooseSignals(next)
    setChoice(next)
    giveSignal('due')
  }
  return (
    <>
      <RadioRow label="Look" value={theme} onChange={setTheme} choices={LOOKS} />
      <CheckboxField
        label="Sound at the end of a run and for each reading"
        checked={choice.sound}
        onChange={(sound) => choose({ ...choice, sound })}
      />
      <CheckboxField
        label="Vibrate"
        checked={choice.vibration}
        onChange={(vibration) => choose({ ...choice, vibration })}
      />
    </>
  )
}
