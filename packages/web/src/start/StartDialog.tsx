import { SETTINGS } from '@rillmark/casebook/brief/kinds.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { useNavigate } from '@tanstack/react-router'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { DateField } from '../kit/DateField.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { FormRow } from '../kit/FormRow.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { Select } from '../kit/Select.tsx'
import { TextArea } from '../kit/TextArea.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useAuthor } from '../store/author.tsx'
import { useDevice } from '../store/device.tsx'
import { localDay } from '../store/local-time.ts'
import { missingToStart, START_LABELS, type StartTyped } from './missing-to-start.ts'

const CHOICES = SETTINGS.map((id) => ({ id, label: id }))

/** Opens a new investigation with as little as is known at the first call. */
export function StartDialog({ onClose }: { readonly onClose: () => void }): ReactNode {
  const device = useDevice()
  const author = useAuthor()
  const navigate = useNavigate()
  const [typed, setTyped] = useState<StartTyped>(() => ({
    name: author.name,
    title: '',
    locality: '',
    setting: '',
    openedOn: localDay(),
    reason: '',
  }))
  const [tried, setTried] = useState(false)
  const [issues, setIssues] = useState<readonly Issue[]>([])

  const missing = tried ? missingToStart(typed) : []
  const begin = async (): Promise<void> => {
    setTried(true)
    const { name, setting, openedOn } = typed
    const [title, reason, locality] = [typed.title.trim(), typed.reason.trim(), typed.locality.trim()]
    if (setting === '' || missingToStart(typed).length > 0) return setIssues([])
    author.setName(name.trim())
    const body = { title, ...(locality === '' ? {} : { locality }), setting, openedOn, reason }
    const opened = await device.start({ body, author: name.trim() })
    if (opened.ok) await navigate({ to: '/i/$investigation/brief', params: { investigation: opened.id } })
    else setIssues(opened.issues)
  }

  return (
    <Dialog
      title="Start an investigation"
      open
      onClose={onClose}
      mustAnswer
      actions={
        <>
          <Button kind="primary" onPress={() => void begin()}>
            Start
          </Button>
          <Button onPress={onClose}>Not now</Button>
        </>
      }
    >
      <div className="form">
        <ProblemList problems={missing} title="Still needed" />
        <ProblemList problems={issues} title="Not started" />
        <Fields
          typed={typed}
          missing={missing}
          onType={(part) => setTyped({ ...typed, ...part })}
          askName={author.name === ''}
        />
      </div>
    </Dialog>
  )
}

interface FieldsProps {
  readonly typed: StartTyped
  readonly missing: readonly Issue[]
  readonly askName: boolean
  readonly onType: (part: Partial<StartTyped>) => void
}

function Fields({ typed, missing, askName, onType }: FieldsProps): ReactNode {
  const needed = (key: keyof typeof START_LABELS, words: string): string | undefined =>
    missing.some(({ path }) => path === START_LABELS[key]) ? words : undefined
  return (
    <>
      <FormRow>
        <TextField
          label={START_LABELS.title}
          value={typed.title}
          onChange={(title) => onType({ title })}
          required
          issue={needed('title', 'Give it a name; it can be amended later.')}
          focusFirst
        />
        <TextField label="Locality" value={typed.locality} onChange={(locality) => onType({ locality })} />
      </FormRow>
      <FormRow>
        <Select
          label={START_LABELS.setting}
          value={typed.setting}
          onChange={(setting) => onType({ setting })}
          choices={CHOICES}
          required
          issue={needed('setting', 'Choose what kind of place it is.')}
        />
        <DateField
          label={START_LABELS.openedOn}
          value={typed.openedOn}
          onChange={(openedOn) => onType({ openedOn })}
          required
          issue={needed('openedOn', 'Give the day you were called.')}
        />
      </FormRow>
      <TextArea
        label={START_LABELS.reason}
        hint="Codes, never names of the ill."
        value={typed.reason}
        onChange={(reason) => onType({ reason })}
        required
        issue={needed('reason', 'One sentence is enough.')}
      />
      {askName && (
        <TextField
          label={START_LABELS.name}
          hint="Goes on every entry; asked once on this device."
          value={typed.name}
          onChange={(name) => onType({ name })}
          required
          issue={needed('name', 'Type your name or initials.')}
        />
      )}
    </>
  )
}
