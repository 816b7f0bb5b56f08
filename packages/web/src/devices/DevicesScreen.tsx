import { Link } from '@tanstack/react-router'
import { type ReactNode, Suspense, useEffect, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { EmptyState } from '../kit/EmptyState.tsx'
import { Note } from '../kit/Note.tsx'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { PlainShell } from '../shell/PlainShell.tsx'
import { type Device, useDevice } from '../store/device.tsx'
import type { Answered, DeviceAccess, KnownDevice, SessionHere } from '../sync/device-access.ts'
import { DeviceTable } from './DeviceTable.tsx'
import { ServerKeyPart } from './ServerKeyPart.tsx'
import './devices.css'
import { lazyPart, sayMissing } from '../shell/lazy-part.tsx'

const InviteDialog = lazyPart(async () => ({ default: (await import('./InviteDialog.tsx')).InviteDialog }), sayMissing)
const RevokeDialog = lazyPart(async () => ({ default: (await import('./RevokeDialog.tsx')).RevokeDialog }), sayMissing)

const LOOK_EVERY_MS = 10_000

interface Known {
  readonly access: DeviceAccess
  readonly session: SessionHere
  readonly devices: Answered<readonly KnownDevice[]> | undefined
  readonly serverKey: Answered<string> | undefined
}

/** The devices the server lets in; a lead invites another, or revokes one. */
export function DevicesScreen(): ReactNode {
  const device = useDevice()
  const [known, setKnown] = useState<Known>()
  const [inviting, setInviting] = useState(false)
  const [revoking, setRevoking] = useState<KnownDevice>()
  const [turn, setTurn] = useState(0)
  useEffect(() => {
    let wanted = true
    const look = (): void =>
      void readKnown(device).then((read) => {
        if (wanted) setKnown(read)
      })
    look()
    const timer = setInterval(look, LOOK_EVERY_MS)
    return () => {
      wanted = false
      clearInterval(timer)
    }
    // oxlint-disable-next-line react/exhaustive-effect-dependencies -- a turn more asks at once, for instance after a revocation
  }, [device, turn])
  const session = known?.session
  const lead = session?.kind === 'in' && session.role === 'lead'
  return (
    <PlainShell where={<span>Devices</span>}>
      <Page>
        <PageHead
          title="Devices"
          lead="Who may come in to this server, and as what. Every entry is signed by the device it was written on."
          actions={
            lead && (
              <Button kind="primary" onPress={() => setInviting(true)}>
                Invite a device
              </Button>
            )
          }
        />
        <Body known={known} onRevoke={lead ? setRevoking : undefined} />
        {known?.serverKey?.ok === true && <ServerKeyPart thumbprint={known.serverKey.value} />}
      </Page>
      <Suspense>
        {inviting && known !== undefined && (
          <InviteDialog access={known.access} devices={devicesIn(known)} onClose={() => setInviting(false)} />
        )}
        {revoking !== undefined && known !== undefined && (
          <RevokeDialog
            access={known.access}
            device={revoking}
            onClose={() => {
              setRevoking(undefined)
              setTurn(turn + 1)
            }}
          />
        )}
      </Suspense>
    </PlainShell>
  )
}

async function readKnown(device: Device): Promise<Known> {
  const access = await device.access()
  const session = await access.session()
  const [answers, isIn] = [session.kind === 'open' || session.kind === 'in', session.kind === 'in']
  const [devices, serverKey] = await Promise.all([
    isIn ? access.devices() : undefined,
    answers ? access.serverKey() : undefined,
  ])
  return { access, session, devices, serverKey }
}

function devicesIn({ devices }: Known): readonly KnownDevice[] {
  return devices?.ok === true ? devices.value : []
}

function Body({
  known,
  onRevoke,
}: {
  readonly known: Known | undefined
  readonly onRevoke: ((device: KnownDevice) => void) | undefined
}): ReactNode {
  if (known === undefined) return <p className="faint">Asking the server …</p>
  const { session, devices } = known
  if (session.kind === 'open')
    return (
      <EmptyState title="This server answers its own machine only">
        <p>
          Whoever sits here reads and writes everything, and no device has to join. To let phones come in, start it for
          the network (<span className="mono">rillmark start --host 0.0.0.0</span>): it then lets in only devices that
          were invited, over HTTPS.
        </p>
      </EmptyState>
    )
  if (session.kind === 'unreachable')
    return (
      <Note kind="warn">
        The server can’t be reached, and who may come in is kept there. What you write on this device is kept and waits.
      </Note>
    )
  if (session.kind === 'not in')
    return (
      <EmptyState title="This device is not in" action={<Link to="/join">Join with an invitation</Link>}>
        <p>
          The server lets in only devices that a lead has invited. If this one was in before, it has been revoked: ask a
          lead. What was written here stays here.
        </p>
      </EmptyState>
    )
  if (devices === undefined || !devices.ok)
    return <ProblemList problems={devices?.issues ?? []} title="The list could not be read" />
  return (
    <>
      <p className="quiet">
        This device is in as <b>{session.name}</b>, {session.role}.
      </p>
      <DeviceTable devices={devices.value} own={session.device} onRevoke={onRevoke} />
      {devices.value.length === 1 && onRevoke !== undefined && (
        <p className="quiet">Only this one so far. Invite the phones of those who sample before they go out.</p>
      )}
    </>
  )
}
