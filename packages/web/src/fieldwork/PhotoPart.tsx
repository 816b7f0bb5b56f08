import type { StopAt } from '@rillmark/casebook/fieldwork/stops.ts'
import { type ReactNode, useState } from 'react'
import { PictureByHash } from '../entry/PictureByHash.tsx'
import { Button } from '../kit/Button.tsx'
import { Note } from '../kit/Note.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useDevice } from '../store/device.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import type { DraftHandle } from './drafts.ts'
import { useDraft } from './use-draft.ts'
import { NotKept, useStop, useWriting } from './stop-tools.tsx'

/** A photo taken and kept on this device whose words are still to come. */
export function usePhotoDraft(at: StopAt): { readonly draft: DraftHandle; readonly waiting: boolean } {
  const { id } = useInvestigation()
  const draft = useDraft(`${id}/${at.round}/${at.stop}/photo`)
  return { draft, waiting: draft.get('sha256') !== '' }
}

/** Takes a photo of this stop: the picture is kept on this device at once; with its words its hash goes into the record. */
export function PhotoPart(): ReactNode {
  const { at, plan } = useStop()
  const { dropAttachment, putAttachment } = useDevice()
  const writing = useWriting()
  const { draft, waiting } = usePhotoDraft(at)
  const [failed, setFailed] = useState<string>()
  const shows = draft.get('shows')
  const choose = async (file: File | undefined): Promise<void> => {
    if (file === undefined) return
    try {
      const replaced = draft.get('sha256')
      const { sha256, mediaType, bytes } = await putAttachment(file)
      draft.set({ sha256, mediaType, bytes: String(bytes) })
      // it may show what should not be seen, such as a person
      if (replaced !== '' && replaced !== sha256) await dropAttachment(replaced)
      setFailed(undefined)
    } catch (error) {
      setFailed(error instanceof Error ? error.message : String(error))
    }
  }
  const keep = async (): Promise<void> => {
    const mediaType = MEDIA_TYPES.find((type) => type === draft.get('mediaType'))
    if (mediaType === undefined) return
    const stored = { sha256: draft.get('sha256'), mediaType, bytes: Number(draft.get('bytes')) }
    if (await writing.write('photo.taken', { ...at, ...stored, shows })) draft.clear()
  }
  const photos = plan.visit?.photos ?? []
  return (
    <div className="stack">
      <label className="button button-quiet field-photo">
        {waiting ? 'Take it again' : 'Take or choose a photo'}
        <input
          className="visually-hidden"
          type="file"
          accept="image/jpeg,image/png,image/webp"
          capture="environment"
          onChange={(event) => void choose(event.target.files?.[0])}
        />
      </label>
      {waiting && (
        <>
          <Photo sha256={draft.get('sha256')} shows={shows === '' ? 'the photo just taken' : shows} />
          <TextField
            label="What it shows (no people)"
            width="full"
            value={shows}
            onChange={(words) => draft.set({ shows: words })}
          />
          <Button kind="primary" busy={writing.busy} disabled={shows.trim() === ''} onPress={() => void keep()}>
            Keep the photo
          </Button>
        </>
      )}
      {failed !== undefined && <Note kind="bad">{failed}</Note>}
      <NotKept issues={writing.issues} />
      {photos.length > 0 && (
        <ul className="field-photos">
          {photos.map(({ id, body }) => (
            <li key={id}>
              <Photo sha256={body.sha256} shows={body.shows} />
            </li>
          ))}
        </ul>
      )}
    </div>
  )
}

const MEDIA_TYPES = ['image/jpeg', 'image/png', 'image/webp'] as const

function Photo({ sha256, shows }: { readonly sha256: string; readonly shows: string }): ReactNode {
  return (
    <figure>
      <PictureByHash sha256={sha256} shows={shows} />
      <figcaption className="faint">{shows}</figcaption>
    </figure>
  )
}
