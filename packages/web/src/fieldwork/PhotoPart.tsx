import { type ChangeEvent, type ReactNode, useEffect, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Note } from '../kit/Note.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useDevice } from '../store/device.tsx'
import { NotKept, useStop, useWriting } from './stop-tools.tsx'

/** Takes a photo of this stop: the picture is kept on this device first, its hash goes into the record. */
export function PhotoPart(): ReactNode {
  const { at, plan } = useStop()
  const { putAttachment } = useDevice()
  const writing = useWriting()
  const [file, setFile] = useState<File>()
  const [shows, setShows] = useState('')
  const [failed, setFailed] = useState<string>()
  const choose = (event: ChangeEvent<HTMLInputElement>): void => {
    setFile(event.target.files?.[0])
    setFailed(undefined)
  }
  const keep = async (): Promise<void> => {
    if (file === undefined) return
    try {
      const stored = await putAttachment(file)
      if (await writing.write('photo.taken', { ...at, ...stored, shows })) {
        setFile(undefined)
        setShows('')
      }
    } catch (error) {
      setFailed(error instanceof Error ? error.message : String(error))
    }
  }
  const photos = plan.visit?.photos ?? []
  return (
    <div className="stack">
      <label className="button button-quiet field-photo">
        {file === undefined ? 'Take or choose a photo' : file.name}
        <input
          className="visually-hidden"
          type="file"
          accept="image/jpeg,image/png,image/webp"
          capture="environment"
          onChange={choose}
        />
      </label>
      {file !== undefined && (
        <>
          <TextField label="What it shows (no people)" width="full" value={shows} onChange={setShows} />
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

function Photo({ sha256, shows }: { readonly sha256: string; readonly shows: string }): ReactNode {
  const { attachmentAddress } = useDevice()
  const [address, setAddress] = useState<string>()
  useEffect(() => {
    let made: string | undefined
    let gone = false
    void attachmentAddress(sha256).then((found) => {
      made = found
      if (gone) release(found)
      else setAddress(found)
    })
    return () => {
      gone = true
      if (made !== undefined) release(made)
    }
  }, [attachmentAddress, sha256])
  return (
    <figure>
      {address !== undefined && <img src={address} alt={shows} loading="lazy" />}
      <figcaption className="faint">{shows}</figcaption>
    </figure>
  )
}

const release = (address: string): void => {
  if (address.startsWith('blob:')) URL.revokeObjectURL(address)
}
