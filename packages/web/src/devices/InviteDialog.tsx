import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { type ReactNode, useEffect, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { Note } from '../kit/Note.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { RadioRow } from '../kit/RadioRow.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useToasts } from '../kit/Toasts.tsx'
import {
  type DeviceAccess,
  INVITED_ROLES,
  type Invitation,
  type InvitedRole,
  type KnownDevice,
} from '../sync/device-access.ts'
import { leftWords, ROLE_MEANS, ROLE_WORDS } from './device-words.ts'
import { QrCode } from './QrCode.tsx'

const GOOD_FOR = [
  { id: '15', label: '15 minutes' },
  { id: '60', label: '1 hour' },
  { id: '1440', label: '1 day' },
] as const
type Minutes = (typeof GOOD_FOR)[number]['id']

interface InviteProps {
  readonly access: DeviceAccess
  /** who is in now: a device that comes in while the invitation is shown is told */
  readonly devices: readonly KnownDevice[]
  readonly onClose: () => void
}

/** Invites one device: first as what, then the code it scans, until it is used or expires. */
export function InviteDialog({ access, devices, onClose }: InviteProps): ReactNode {
  const [role, setRole] = useState<InvitedRole>('sampler')
  const [name, setName] = useState('')
  const [minutes, setMinutes] = useState<Minutes>('15')
  const [invitation, setInvitation] = useState<Invitation>()
  const [issues, setIssues] = useState<readonly Issue[]>([])
  const make = async (): Promise<void> => {
    const given = name.trim() === '' ? {} : { name: name.trim() }
    const answer = await access.invite({ role, minutes: Number(minutes), ...given })
    if (!answer.ok) return setIssues(answer.issues)
    setIssues([])
    setInvitation(answer.value)
  }
  if (invitation !== undefined)
    return (
      <Shown
        invitation={invitation}
        role={role}
        joined={devices.find((device) => device.invitation === invitation.id)}
        onAgain={() => setInvitation(undefined)}
        onClose={onClose}
      />
    )
  return (
    <Dialog
      title="Invite a device"
      open
      onClose={onClose}
      mustAnswer
      actions={
        <>
          <Button kind="primary" onPress={() => void make()}>
            Make the invitation
          </Button>
          <Button onPress={onClose}>Cancel</Button>
        </>
      }
    >
      <div className="form">
        <ProblemList problems={issues} title="Not made" />
        <RadioRow
          label="As"
          value={role}
          onChange={setRole}
          stacked
          choices={INVITED_ROLES.map((id) => ({ id, label: `${ROLE_WORDS[id]}: ${ROLE_MEANS[id]}` }))}
        />
        <TextField
          label="Whose"
          hint="Proposed as its name; can be left out."
          value={name}
          onChange={setName}
          maxLength={120}
        />
        <RadioRow label="Good for" value={minutes} onChange={setMinutes} choices={GOOD_FOR} />
      </div>
    </Dialog>
  )
}

function Shown(props: {
  readonly invitation: Invitation
  readonly role: InvitedRole
  readonly joined: KnownDevice | undefined
  readonly onAgain: () => void
  readonly onClose: () => void
}): ReactNode {
  const { invitation, joined } = props
  const { say } = useToasts()
  const left = leftWords(useLeftMs(invitation.expires))
  const copy = (): void =>
    void navigator.clipboard.writeText(invitation.url).then(
      () => say('The link is copied. Whoever has it can join once.'),
      () => say('The browser does not let the link be copied: select it and copy it by hand.'),
    )
  if (joined !== undefined)
    return (
      <Dialog title={`${joined.name} is in`} open onClose={props.onClose}>
        <p>It joined as {ROLE_WORDS[joined.role]}. The invitation is used up; the next device needs one of its own.</p>
      </Dialog>
    )
  return (
    <Dialog
      title={`Invitation for a ${ROLE_WORDS[props.role]}`}
      open
      onClose={props.onClose}
      mustAnswer
      actions={
        left === undefined ? (
          <>
            <Button kind="primary" onPress={props.onAgain}>
              Make another
            </Button>
            <Button onPress={props.onClose}>Close</Button>
          </>
        ) : (
          <>
            <Button onPress={copy}>Copy the link</Button>
            <Button onPress={props.onClose}>Close</Button>
          </>
        )
      }
    >
      {left === undefined ? (
        <Note kind="warn">This invitation has expired. Nobody can join with it any more.</Note>
      ) : (
        <div className="invitation">
          <QrCode text={invitation.url} label="Invitation as a QR code; the link below says the same" />
          <p>
            Scan it with the phone’s camera, or open the link there. Good for one device, for{' '}
            <b className="num" role="timer">
              {left}
            </b>{' '}
            more.
          </p>
          <p className="mono invitation-link">{invitation.url}</p>
          {invitation.url.startsWith('https:') && (
            <p className="quiet">
              If the phone warns of the certificate: this server made its own. Compare its fingerprint with the one the
              server printed at its start before you go on.
            </p>
          )}
        </div>
      )}
    </Dialog>
  )
}

function useLeftMs(expires: string): number {
  const [nowMs, setNowMs] = useState(() => Date.now())
  useEffect(() => {
    const timer = setInterval(() => setNowMs(Date.now()), 1000)
    return () => clearInterval(timer)
  }, [])
  return Date.parse(expires) - nowMs
}
