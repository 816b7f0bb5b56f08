import type { Link } from '@rillmark/casebook/chain/link.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import type { BodyOf } from '@rillmark/casebook/entry/kinds.ts'
import type { AttachmentType } from '@rillmark/exchange/package/media-type.ts'
import type { DeviceAccess } from '../sync/device-access.ts'
import type { Copy, LetGo } from '../offline/kept-copies.ts'
import type { DrawnFrom, DrawnStill } from '../opening/still.ts'
import { createContext, type ReactNode, useContext } from 'react'
import type { InvestigationStore } from './investigation-store.ts'
import { onceUnlessItFails } from './once.ts'

/** One line of the start page. */
export interface InvestigationSummary {
  readonly id: string
  readonly title: string
  readonly locality?: string | undefined
  readonly openedOn?: string | undefined
  readonly entries: number
  /** Where its entries stand, in words. */
  readonly kept: string
  /** How much of it is on this device. */
  readonly copy: Copy
}

export type Opened =
  | { readonly ok: true; readonly id: string }
  | { readonly ok: false; readonly issues: readonly Issue[] }

/** What this device can do with whole investigations. The ledger side implements it; the start page and the shell use it. */
export interface Device {
  /** those on this device; waits for no network */
  readonly list: () => Promise<readonly InvestigationSummary[]>
  /** those on the server, of which this device may have some; none where it does not answer soon */
  readonly listThere: () => Promise<readonly InvestigationSummary[]>
  /** undefined when no investigation of that id is known here. */
  readonly open: (id: string) => Promise<InvestigationStore | undefined>
  /** Keeps a whole copy here, photos included, from now on; false when neither this device nor the server knows it. */
  readonly keepWhole: (id: string) => Promise<boolean>
  /** Takes a copy off this device, unless anything of it has not reached the server. */
  readonly letGo: (id: string) => Promise<LetGo>
  /** Calls back when more or less of an investigation is here. Returns how to stop. */
  readonly onCopies: (listener: () => void) => () => void
  /** Being let in by the server, and letting others in. */
  readonly access: () => Promise<DeviceAccess>
  readonly start: (request: {
    readonly body: BodyOf<'investigation.opened'>
    readonly author: string
  }) => Promise<Opened>
  readonly openExample: () => Promise<Opened>
  readonly importPackage: (file: File) => Promise<Opened>
  /** Takes a refused entry off this device's list, when a person has dealt with it. */
  readonly settle: (refused: { readonly investigation: string; readonly entry: string }) => Promise<void>
  /** Links of one record as they stand in this device's copy of the chain, in order; entries still on their way have none. */
  readonly links: (
    investigation: string,
    range: { readonly after: number; readonly limit: number },
  ) => Promise<readonly Link[]>
  /** Keeps a picture here first, and sends it once an entry names it; the promise fails for what is no picture or too large. */
  readonly putAttachment: (
    file: Blob,
  ) => Promise<{ readonly sha256: string; readonly mediaType: AttachmentType; readonly bytes: number }>
  /** Takes a picture off this device that no entry names; one that is named stays. */
  readonly dropAttachment: (sha256: string) => Promise<void>
  /** Where to show a picture from; revoke the address when it starts with `blob:`. */
  readonly attachmentAddress: (sha256: string) => Promise<string>
  /** What is half done, kept on this device alone until it becomes an entry or is dropped. */
  readonly draft: (name: string) => Promise<string | undefined>
  readonly keepDraft: (name: string, text: string | undefined) => Promise<void>
  /**
   * Keeps what the screen of an investigation shows for the next opening, and says what it was drawn from; undefined where the record here is no
   * longer that, or where it is kept already.
   */
  readonly keepStill: (investigation: string, drawn: DrawnStill) => Promise<DrawnFrom | undefined>
}

const Context = createContext<Device | undefined>(undefined)

export function DeviceProvider(props: { readonly device: Device; readonly children: ReactNode }): ReactNode {
  return <Context value={props.device}>{props.children}</Context>
}

export function useDevice(): Device {
  const device = useContext(Context)
  if (device === undefined) throw new TypeError('Cannot use the device because no provider is above this component')
  return device
}

/** A device whose code is fetched when it is first asked, so that the first screen does not wait for the casebook. */
export function lazyDevice(load: () => Promise<Device>): Device {
  const device = onceUnlessItFails(load)
  return {
    list: async () => (await device()).list(),
    listThere: async () => (await device()).listThere(),
    open: async (id) => (await device()).open(id),
    access: async () => (await device()).access(),
    keepWhole: async (id) => (await device()).keepWhole(id),
    letGo: async (id) => (await device()).letGo(id),
    onCopies: (listener) => {
      let [wanted, stop] = [true, (): void => undefined]
      device().then(
        (here) => {
          if (wanted) stop = here.onCopies(listener)
        },
        // whoever asks it for something is told
        () => undefined,
      )
      return () => {
        wanted = false
        stop()
      }
    },
    start: async (request) => (await device()).start(request),
    openExample: async () => (await device()).openExample(),
    importPackage: async (file) => (await device()).importPackage(file),
    settle: async (refused) => (await device()).settle(refused),
    links: async (investigation, range) => (await device()).links(investigation, range),
    putAttachment: async (file) => (await device()).putAttachment(file),
    dropAttachment: async (sha256) => (await device()).dropAttachment(sha256),
    attachmentAddress: async (sha256) => (await device()).attachmentAddress(sha256),
    draft: async (name) => (await device()).draft(name),
    keepDraft: async (name, text) => (await device()).keepDraft(name, text),
    keepStill: async (investigation, drawn) => (await device()).keepStill(investigation, drawn),
  }
}
