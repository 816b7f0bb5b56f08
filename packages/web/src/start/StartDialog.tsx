import { SETTINGS } from '@rillmark/casebook/brief/kinds.ts'
import type { Issue } from '@rillmark/casebook/entry/issue.ts'
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

const CHOICES = SETTINGS.map((id) => ({ id, label: id }))

/** Opens a new investigation with as little as is known at the first call. */
export function StartDialog({ onClose }: { readonly onClose: () => void }): ReactNode {
  const device = useDevice()
  const author = useAuthor()
  const navigate = useNavigate()
  const [name, setName] = useState(author.name)
  const [title, setTitle] = useState('')
  const [locality, setLocality] = useState('')
  const [setting, setSetting] = useState<(typeof SETTINGS)[number] | ''>('')
  const [openedOn, setOpenedOn] = useState(today)
  const [reason, setReason] = useState('')
  const [tried, setTried] = useState(false)
  const [issues, setIssues] = useState<readonly Issue[]>([])
  const needed = (value: string, words: string): string | undefined =>
    tried && value.trim() === '' ? words : undefined

  const begin = async (): Promise<void> => {
    setTried(true)
    if (setting === '' || [name, title, reason].some((value) => value.trim() === '')) return
    author.setName(name.trim())
    const place = locality.trim()
    const body = {
      title: title.trim(),
      ...(place === '' ? {} : { locality: place }),
      setting,
      openedOn,
      reason: reason.trim(),
    }
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
        <ProblemList problems={issues} />
        <FormRow>
          <TextField
            label="Building or place"
            value={title}
            onChange={setTitle}
            required
            issue={needed(title, 'Give it a name; it can be amended later.')}
            focusFirst
          />
          <TextField label="Locality" value={locality} onChange={setLocality} />
        </FormRow>
        <FormRow>
          <Select
            label="Setting"
            value={setting}
            onChange={setSetting}
            choices={CHOICES}
            required
            issue={needed(setting, 'Choose what kind of place it is.')}
          />
          <DateField label="Opened on" value={openedOn} onChange={setOpenedOn} required />
        </FormRow>
        <TextArea
          label="Why you were called"
          hint="Codes, never names of the ill."
          value={reason}
          onChange={setReason}
          required
          issue={needed(reason, 'One sentence is enough.')}
        />
        {author.name === '' && (
          <TextField
            label="Who is writing"
            hint="Goes on every entry; asked once on this device."
            value={name}
            onChange={setName}
            required
            issue={needed(name, 'Type your name or initials.')}
          />
        )}
      </div>
    </Dialog>
  )
}

function today(): string {
  const now = new Date()
  return new Date(now.getTime() - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 10)
}
