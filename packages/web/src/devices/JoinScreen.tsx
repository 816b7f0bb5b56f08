import { type Issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { Link } from '@tanstack/react-router'
import { type ReactNode, Suspense, useEffect, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { EmptyState } from '../kit/EmptyState.tsx'
import { Note } from '../kit/Note.tsx'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { TextField } from '../kit/TextField.tsx'
import { askToPersist } from '../offline/storage.ts'
import { PlainShell } from '../shell/PlainShell.tsx'
import { useAuthor } from '../store/author.tsx'
import { type Device, useDevice } from '../store/device.tsx'
import type { DeviceAccess, InvitedRole, Joined, SessionHere } from '../sync/device-access.ts'
import { ROLE_MEANS, ROLE_WORDS } from './device-words.ts'
import './devices.css'
import { invitationIn } from './invitation-in.ts'
import { lazyPart, sayMissing } from '../shell/lazy-part.tsx'

const ScanDialog = lazyPart(async () => ({ default: (await import('../scan/ScanDialog.tsx')).ScanDialog }), sayMissing)

/** Joins a server with an invitation: by the link that was opened, or scanned or pasted here. */
export function JoinScreen(): ReactNode {
  const [token, setToken] = useState(takeToken)
  const [joined, setJoined] = useState<{ readonly name: string; readonly role: InvitedRole }>()
  const session = useSession()
  // another invitation opened in the same tab: the page is not loaded for what stands after #
  useEffect(() => {
    const read = (): void => setToken((before) => takeToken() ?? before)
    window.addEventListener('hashchange', read)
    return () => window.removeEventListener('hashchange', read)
  }, [])
  return (
    <PlainShell where={<span>Join</span>}>
      <Page>
        <PageHead title="Join this server" lead={location.host} />
        {joined !== undefined ? (
          <EmptyState title={`${joined.name} is in`} action={<Link to="/">See all investigations</Link>}>
            <p>
              As {ROLE_WORDS[joined.role]}, it {ROLE_MEANS[joined.role]}. Before you go where there is no signal, press
              “Keep on this device” beside each investigation you need there.
            </p>
          </EmptyState>
        ) : session?.kind === 'open' ? (
          <EmptyState title="Nobody has to join here" action={<Link to="/">See all investigations</Link>}>
            <p>This server answers its own machine only, and whoever sits at it.</p>
          </EmptyState>
        ) : session?.kind === 'in' ? (
          <EmptyState
            title={`This device is in as ${session.name}`}
            action={<Link to="/">See all investigations</Link>}
          >
            <p>
              As {ROLE_WORDS[session.role]}, it {ROLE_MEANS[session.role]}.
            </p>
          </EmptyState>
        ) : token === undefined ? (
          <WithoutToken onToken={setToken} />
        ) : (
          <JoinForm key={token} token={token} onJoined={setJoined} />
        )}
      </Page>
    </PlainShell>
  )
}

/** The token stands after # and is taken out of the address, so that it stays in no history and no screenshot. */
function takeToken(): string | undefined {
  const read = invitationIn(location.href, location.origin)
  if (read.kind !== 'token') return undefined
  history.replaceState(history.state, '', location.pathname)
  return read.token
}

function useSession(): SessionHere | undefined {
  const device = useDevice()
  const [session, setSession] = useState<SessionHere>()
  useEffect(() => void device.access().then(async (access) => setSession(await access.session())), [device])
  return session
}

function WithoutToken({ onToken }: { readonly onToken: (token: string) => void }): ReactNode {
  const [scanning, setScanning] = useState(false)
  return (
    <EmptyState
      title="An invitation is needed"
      action={
        <Button kind="primary" onPress={() => setScanning(true)}>
          Scan or paste an invitation
        </Button>
      }
    >
      <p>Ask a lead: under Devices they make one, as a code to scan and a link to open.</p>
      <Suspense>
        {scanning && (
          <ScanDialog
            title="Scan the invitation"
            formats={['qr_code']}
            typeLabel="Or paste the link"
            onClose={() => setScanning(false)}
            onFound={(text) => {
              const read = invitationIn(text, location.origin)
              if (read.kind === 'none') return { kind: 'wrong', words: 'That is no invitation.' }
              if (read.kind === 'elsewhere')
                return { kind: 'wrong', words: `That is for another server. Open there: ${read.address}` }
              setScanning(false)
              onToken(read.token)
              return undefined
            }}
          />
        )}
      </Suspense>
    </EmptyState>
  )
}

function JoinForm(props: {
  readonly token: string
  readonly onJoined: (joined: { readonly name: string; readonly role: InvitedRole }) => void
}): ReactNode {
  const device = useDevice()
  const author = useAuthor()
  const [name, setName] = useState(author.name === '' ? '' : `${author.name}’s device`)
  const [issues, setIssues] = useState<readonly Issue[]>([])
  const [tried, setTried] = useState(false)
  const [busy, setBusy] = useState(false)
  const [revoked, setRevoked] = useState(false)
  const join = async (anew = false): Promise<void> => {
    setTried(true)
    if (name.trim() === '') return
    setBusy(true)
    void askToPersist()
    const asked = { token: props.token, name: name.trim(), anew }
    const answer = await joinWith(device, asked).finally(() => setBusy(false))
    if (answer.ok === 'revoked') return setRevoked(true)
    if (!answer.ok) return setIssues(answer.issues)
    // everything loaded so far goes by the old name
    if (anew) location.reload()
    else props.onJoined(answer.value)
  }
  if (revoked) return <JoinAnew busy={busy} issues={issues} onJoin={() => void join(true)} />
  const spent = issues.some(({ path }) => path === 'token')
  return (
    <div className="form">
      {spent ? (
        <Note kind="bad">
          This invitation does not count: it was used, has expired, or was not copied whole. Ask a lead for another.
        </Note>
      ) : (
        <ProblemList problems={issues} title="Not joined" />
      )}
      <TextField
        label="Name of this device"
        hint="So that others know it: whose it is, and what."
        value={name}
        onChange={setName}
        onEnter={() => void join()}
        issue={tried && name.trim() === '' ? 'Give it a name.' : undefined}
        maxLength={120}
        required
        focusFirst
      />
      <ul className="quiet join-means">
        <li>A key is made on this device and never leaves it.</li>
        <li>Every entry written here is signed with it, so that a hearing can tell whose phone it came from.</li>
        <li>What was written here before and waits is signed at joining, as its own.</li>
        <li>A lead can revoke this device, for instance when it is lost. What it wrote stays.</li>
      </ul>
      <div className="button-row">
        <Button kind="primary" busy={busy} onPress={() => void join()}>
          Join
        </Button>
        <Link to="/">Not now</Link>
      </div>
    </div>
  )
}

/** What this device could not keep is said like what the server refused: pressed again, it goes on where it stopped. */
async function joinWith(device: Device, asked: Parameters<DeviceAccess['join']>[0]): Promise<Joined> {
  try {
    return await (await device.access()).join(asked)
  } catch (error) {
    const received = error instanceof Error ? error.message : String(error)
    return { ok: false, issues: [statedIssue('this device', { expected: 'to keep that it joined', received })] }
  }
}

/** This browser was in before and was revoked: neither its name nor its key comes in again, and what it did not send is signed with that key. */
function JoinAnew(props: {
  readonly busy: boolean
  readonly issues: readonly Issue[]
  readonly onJoin: () => void
}): ReactNode {
  return (
    <EmptyState
      title="This device was revoked"
      action={
        <>
          <Button kind="primary" busy={props.busy} onPress={props.onJoin}>
            Join as a new device
          </Button>
          <a href="/">Not now</a>
        </>
      }
    >
      <p>It can come back with this invitation, as a new device with a new key. Then:</p>
      <ul className="join-means">
        <li>Everything kept here stays here.</li>
        <li>
          What was not sent is signed with the old key, so it is refused. It stays in Record of its investigation, to be
          recorded again under the new key, or let go.
        </li>
        <li>Other tabs of Rillmark have to be loaded again.</li>
      </ul>
      <ProblemList problems={props.issues} title="Not joined" />
    </EmptyState>
  )
}
