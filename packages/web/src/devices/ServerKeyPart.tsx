import { hashGroups } from '@rillmark/casebook/record/verdict-words.ts'
import type { ReactNode } from 'react'
import { Button } from '../kit/Button.tsx'
import { Section } from '../kit/Section.tsx'
import { useToasts } from '../kit/Toasts.tsx'

/** The key the server signs receipts with, to be read out to whoever holds one. */
export function ServerKeyPart({ thumbprint }: { readonly thumbprint: string }): ReactNode {
  const { say } = useToasts()
  const groups = hashGroups(thumbprint)
  const copy = (): void =>
    void navigator.clipboard.writeText(groups).then(
      () => say('The key is copied.'),
      () => say('The browser does not let the key be copied: select it and copy it by hand.'),
    )
  return (
    <Section title="Key of this server">
      <p className="quiet">
        This server signs every receipt with it: a laboratory or another party that was given one compares the key named
        there with this one, to know that the receipt came from here.
      </p>
      <p className="mono server-key">{groups}</p>
      <Button onPress={copy}>Copy the key</Button>
    </Section>
  )
}
