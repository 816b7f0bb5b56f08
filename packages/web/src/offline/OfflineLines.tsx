import { Link, useLocation } from '@tanstack/react-router'
import { type ReactNode, useEffect, useState, useSyncExternalStore } from 'react'
import { Button } from '../kit/Button.tsx'
import { sessionStanding } from '../sync/session.ts'
import { broughtBack, broughtBackWords } from './bring-back.ts'
import { heldBecause, onHold } from './busy.ts'
import { type LetGo, letGo } from './let-go.ts'
import './offline.css'
import { type Room, roomWarning } from './room.ts'
import { watchRoom } from './storage.ts'
import { versionStanding } from './takeover.ts'
import { fetchNewVersion, followVersions, takeNewVersion } from './versions.ts'

/** What this device has to say, above every screen, a line each: a tab that let go, what was lost and is back, a device nearly full, a newer version. Usually nothing. */
export function OfflineLines(): ReactNode {
  useEffect(() => {
    if (import.meta.env.PROD) followVersions()
  }, [])
  return (
    <>
      <LetGoLine />
      <BroughtBackLine />
      <SessionLine />
      <RoomLine />
      <VersionLine />
    </>
  )
}

const LET_GO_WORDS: Readonly<Record<LetGo, string>> = {
  'newer tab':
    'A newer version of Rillmark is open in another tab, and this one has let go of what is kept. Nothing written is lost.',
  'older app': 'What is kept here is of a newer version of Rillmark than this page. Nothing is lost.',
  browser: 'The browser closed what is kept here. Nothing written is lost.',
  'another device': 'This device joined anew in another tab, with a new key. Nothing written is lost.',
  'anew here': 'This device has a new name and a new key, by which it can join. Nothing written is lost.',
}

function LetGoLine(): ReactNode {
  const why = useSyncExternalStore(letGo.subscribe, letGo.get)
  const { pathname } = useLocation()
  // where it joins, it goes on: loaded again, the invitation would be gone
  if (why === undefined || (why === 'anew here' && pathname === '/join')) return null
  return (
    <div className="app-line app-line-bad" role="alert">
      <span>{LET_GO_WORDS[why]}</span>
      <Button onPress={() => void (why === 'older app' ? fetchNewVersion() : location.reload())}>Load it again</Button>
    </div>
  )
}

function BroughtBackLine(): ReactNode {
  const back = useSyncExternalStore(broughtBack.subscribe, broughtBack.get)
  if (back === undefined) return null
  return (
    <div className="app-line app-line-warn" role="alert">
      <span>{broughtBackWords(back)}</span>
      <Button onPress={() => broughtBack.set(undefined)}>Understood</Button>
    </div>
  )
}

function SessionLine(): ReactNode {
  const standing = useSyncExternalStore(sessionStanding.subscribe, sessionStanding.get)
  const { pathname } = useLocation()
  if (standing === 'fine' || pathname === '/join' || pathname === '/devices') return null
  return (
    <div className="app-line app-line-warn" role="status">
      <span>
        This server lets in only devices that have joined. What you write is kept here, and sent once this device has
        joined.
      </span>
      <Link to="/devices">See Devices</Link>
    </div>
  )
}

function RoomLine(): ReactNode {
  const [room, setRoom] = useState<Room>()
  useEffect(() => watchRoom(setRoom), [])
  const warning = room === undefined ? undefined : roomWarning(room)
  if (warning === undefined) return null
  return (
    <div className="app-line app-line-warn" role="status">
      {warning}
    </div>
  )
}

/** Offered only while nothing is under way; put off until the page is opened again. */
function VersionLine(): ReactNode {
  const standing = useSyncExternalStore(versionStanding.subscribe, versionStanding.get)
  const held = useSyncExternalStore(onHold, () => heldBecause().length > 0)
  const [putOff, setPutOff] = useState(false)
  const [atWork, setAtWork] = useState(false)
  if (standing === 'current' || held || putOff) return null
  const words =
    standing === 'waiting'
      ? 'A newer version of Rillmark is on this device.'
      : 'A newer version of Rillmark is in use in another tab.'
  return (
    <div className="app-line" role="status">
      <span>{atWork ? 'Another tab is in the middle of something. Finish there first.' : words}</span>
      <span className="button-row">
        <Button onPress={() => void takeNewVersion().then((outcome) => setAtWork(outcome === 'at work'))}>
          Use it now
        </Button>
        <Button kind="text" onPress={() => setPutOff(true)}>
          Later
        </Button>
      </span>
    </div>
  )
}
