import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useAuthor } from '../store/author.tsx'

/** Asks once on each device who is writing, when something is first written. Looking needs no name. */
export function AuthorPrompt(): ReactNode {
  const { asking, answer } = useAuthor()
  const [name, setName] = useState('')
  const [issue, setIssue] = useState<string>()
  const done = (): void => {
    if (name.trim() === '') setIssue('Type a name or initials; every entry carries it.')
    else answer(name.trim())
  }
  return (
    <Dialog
      title="Who is writing?"
      open={asking}
      onClose={() => answer('')}
      mustAnswer
      actions={
        <>
          <Button kind="primary" onPress={done}>
            Keep this name
          </Button>
          <Button onPress={() => answer('')}>Write nothing</Button>
        </>
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
