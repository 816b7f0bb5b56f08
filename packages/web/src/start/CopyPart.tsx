import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Note } from '../kit/Note.tsx'
import { useToasts } from '../kit/Toasts.tsx'
import { copyWords, stillWaitingWords } from '../offline/copy-words.ts'
import { askToPersist } from '../offline/storage.ts'
import { type InvestigationSummary, useDevice } from '../store/device.tsx'
import { shortMoment } from '../offline/short-moment.ts'

/** How much of an investigation is on this device, and the way to have more of it here, or none. */
export function CopyPart(props: { readonly summary: InvestigationSummary; readonly onChange: () => void }): ReactNode {
  const { id, title, copy } = props.summary
  const device = useDevice()
  const { say } = useToasts()
  const [busy, setBusy] = useState(false)
  const [trouble, setTrouble] = useState<string>()
  const act = async (work: () => Promise<string | undefined>): Promise<void> => {
    setBusy(true)
    setTrouble(await work().catch((error: unknown) => String(error)))
    setBusy(false)
    props.onChange()
  }
  const keep = (): Promise<void> =>
    act(async () => {
      // The act that shows why: the browser may ask the person now, and need not be waited for.
      void askToPersist()
      return (await device.keepWhole(id))
        ? undefined
        : 'It could not be fetched: the server can’t be reached. Try again.'
    })
  const letGo = (): Promise<void> =>
    act(async () => {
      const answer = await device.letGo(id)
      if (!answer.ok) return stillWaitingWords(answer)
      say(`${title} is no longer on this device. It stays on the server.`, { undo: () => void keep() })
      return undefined
    })
  const whole = copy.kind === 'whole'
  return (
    <div className="investigation-copy">
      <span className="faint" role="status">
        {copyWords(copy, shortMoment)}
      </span>
      <span className="button-row">
        {!whole && (
          <Button kind="text" busy={busy} onPress={() => void keep()} name={`Keep on this device: ${title}`}>
            Keep on this device
          </Button>
        )}
        {copy.kind !== 'not here' && (
          <Button kind="text" busy={busy} onPress={() => void letGo()} name={`Let it go from this device: ${title}`}>
            Let it go
          </Button>
        )}
      </span>
      {trouble !== undefined && <Note kind="bad">{trouble}</Note>}
    </div>
  )
}
