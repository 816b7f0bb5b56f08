import { Link } from '@tanstack/react-router'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { PreferencesDialog } from './PreferencesDialog.tsx'

/** The line on top: wordmark, where we are, what runs, where entries stand, find. `children` fill the middle. */
export function TopBar(props: {
  readonly where?: ReactNode
  readonly children?: ReactNode
  readonly lead?: ReactNode
}): ReactNode {
  const [preferring, setPreferring] = useState(false)
  return (
    <header className="bar">
      {props.lead}
      <Link to="/" className="wordmark" aria-label="Rillmark, all investigations">
        Rillmark
      </Link>
      {props.where !== undefined && <div className="bar-where">{props.where}</div>}
      <div className="bar-end">
        {props.children}
        <Button kind="text" onPress={() => setPreferring(true)}>
          Preferences
        </Button>
      </div>
      {preferring && <PreferencesDialog open onClose={() => setPreferring(false)} />}
    </header>
  )
}
