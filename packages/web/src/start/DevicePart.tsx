import { Link } from '@tanstack/react-router'
import { type ReactNode, useEffect, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Section } from '../kit/Section.tsx'
import { bytesWords, type Room } from '../offline/room.ts'
import { askToPersist, isPersistent, watchRoom } from '../offline/storage.ts'

/** What this device is good for without a network: whether the app itself is on it, how much it keeps, and for how long. */
export function DevicePart(): ReactNode {
  const [room, setRoom] = useState<Room>()
  const [persistent, setPersistent] = useState<boolean>()
  const installed = useInstalled()
  useEffect(() => watchRoom(setRoom), [])
  useEffect(() => void isPersistent().then(setPersistent), [])
  return (
    <Section title="This device">
      <ul className="device-lines quiet">
        <li>{APP_WORDS[installed]}</li>
        {room !== undefined && (
          <li>
            Kept here: {bytesWords(room.usedBytes)}. Room for {bytesWords(room.leftBytes)} more.
          </li>
        )}
        {persistent === true && <li>The browser has promised not to clear it by itself.</li>}
        {persistent === false && (
          <li>
            The browser may clear it when the device runs short.{' '}
            <Button kind="text" onPress={() => void askToPersist().then((is) => setPersistent(is ?? false))}>
              Ask it not to
            </Button>
          </li>
        )}
        <li>
          Who may come in to this server: <Link to="/devices">Devices</Link>
        </li>
      </ul>
    </Section>
  )
}

const APP_WORDS = {
  yes: 'The app is on this device: it opens without a network.',
  soon: 'The app is being put on this device, to open without a network.',
  no: 'This browser does not keep the app itself here: without a network it will not open. It does at an address with HTTPS, or on the machine of the server.',
} as const

/** Whether the service worker, and with it every file of the app, is here. */
function useInstalled(): keyof typeof APP_WORDS {
  const { serviceWorker } = navigator as { serviceWorker?: ServiceWorkerContainer }
  const [here, setHere] = useState((serviceWorker?.controller ?? null) !== null)
  useEffect(() => {
    void serviceWorker?.ready?.then(() => setHere(true))
  }, [serviceWorker])
  return here ? 'yes' : serviceWorker === undefined ? 'no' : 'soon'
}
