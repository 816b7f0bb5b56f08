import type { ReactNode } from 'react'
import { Caution } from '../kit/Caution.tsx'
import { Note } from '../kit/Note.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { Select } from '../kit/Select.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import type { SigningDraft } from './signing.ts'
import { SignaturePad } from './SignaturePad.tsx'

const WAYS = [
  { id: 'drawn', label: 'signs here' },
  { id: 'device', label: 'accepts on their own device' },
  { id: 'paper', label: 'signed a paper form' },
  { id: 'none', label: 'does not sign' },
] as const

/** How the one who takes the box over says so. */
export function SignedPart(props: {
  readonly receiver: string
  readonly draft: SigningDraft
  readonly onChange: (draft: SigningDraft) => void
}): ReactNode {
  const { draft, onChange, receiver } = props
  return (
    <>
      <RadioRow
        label={`${receiver === '' ? 'The receiver' : receiver} …`}
        value={draft.way}
        onChange={(way) => onChange({ way, picture: undefined, device: '' })}
        choices={WAYS}
      />
      {draft.way === 'drawn' && (
        <>
          <SignaturePad
            label={`Signature of ${receiver === '' ? 'the receiver' : receiver}`}
            onDrawn={(picture) => onChange({ ...draft, picture })}
          />
          <Caution>
            A drawn signature shows that somebody drew here, and when; not who. What it is worth is for local law and
            your agency to say: where they ask for ink, photograph the paper form.
          </Caution>
        </>
      )}
      {draft.way === 'device' && <DeviceChoice draft={draft} onChange={onChange} />}
      {draft.way === 'paper' && <PaperChoice draft={draft} onChange={onChange} />}
    </>
  )
}

type PartProps = { readonly draft: SigningDraft; readonly onChange: (draft: SigningDraft) => void }

function DeviceChoice({ draft, onChange }: PartProps): ReactNode {
  const { state, device } = useInvestigation()
  const others = [...state.devices].filter(
    ([id, { revoked, role }]) => id !== device && revoked === undefined && (role === 'sampler' || role === 'lead'),
  )
  if (others.length === 0)
    return (
      <Note kind="warn">No other device has joined this investigation. Let theirs join, or let them sign here.</Note>
    )
  return (
    <Select
      label="Their device"
      hint="Until they accept on it, the hand-over is half and you hold the box."
      value={draft.device}
      onChange={(id) => onChange({ ...draft, device: id })}
      choices={others.map(([id, { name, role }]) => ({ id, label: `${name}, ${role}` }))}
      required
    />
  )
}

function PaperChoice({ draft, onChange }: PartProps): ReactNode {
  const name = draft.picture instanceof File ? draft.picture.name : undefined
  return (
    <label className="button button-quiet sign-paper">
      {name === undefined ? 'Photograph the signed form' : `${name}: take another`}
      <input
        className="visually-hidden"
        type="file"
        accept="image/jpeg,image/png,image/webp"
        capture="environment"
        onChange={(event) => onChange({ ...draft, picture: event.target.files?.[0] })}
      />
    </label>
  )
}
