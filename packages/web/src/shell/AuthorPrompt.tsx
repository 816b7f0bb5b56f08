import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useAuthor } from '../store/author.tsx'

/** Asks once on each device who is writing. */
export function AuthorPrompt(): ReactNode {
  const author = useAuthor()
  const [name, setName] = useState('')
  const [issue, setIssue] = useState<string>()
  const done = (): void => {
    if (name.trim() === '') setIssue('Type a name or initials; every entry carries it.')
    else author.setName(name.trim())
  }
  return (
    <Dialog
      title="Who is writing?"
      open={author.name === ''}
      onClose={() => undefined}
      mustAnswer
      actions={
        <Button kind="primary" onPress={done}>
          Keep this name
        </Button>
      }
    >
      <p className="quiet">
        Every entry carries the name of who made it. It is asked once on this device; Preferences changes it.
      </p>
      <TextField
        label="Your name"
        value={name}
        onChange={setName}
        onEnter={done}
        issue={issue}
        focusFirst
        autoComplete="name"
        width="full"
        maxLength={120}
      />
    </Dialog>
  )
}
