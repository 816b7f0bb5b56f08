import { type ReactNode, useEffect, useId, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Dialog } from '../kit/Dialog.tsx'
import { Note } from '../kit/Note.tsx'
import { TextField } from '../kit/TextField.tsx'
import { giveSignal, soundAfterFirstTouch } from '../signal/signal.ts'
import type { ScanFormat } from './open-detector.ts'
import './scan.css'
import { useScanning } from './use-scanning.ts'

/** What the owner makes of a text: nothing to say, or words that stand under the picture while the camera looks on. */
export type ScanAnswer = { readonly kind: 'right' | 'wrong'; readonly words: string } | undefined

export interface ScanDialogProps {
  readonly title: string
  readonly formats: readonly ScanFormat[]
  /** A symbol was read or its text typed. The dialog stays open until its owner takes it away: close at once, or read one after another. */
  readonly onFound: (text: string) => ScanAnswer | void | Promise<ScanAnswer | void>
  readonly onClose: () => void
  /** what the field for typing asks for; "Or type it" */
  readonly typeLabel?: string | undefined
}

/** Reads a label or code with the camera; typing it is always possible beside it. */
export function ScanDialog(props: ScanDialogProps): ReactNode {
  const { formats, onFound } = props
  const [answer, setAnswer] = useState<ScanAnswer>()
  const [typed, setTyped] = useState('')
  useEffect(() => soundAfterFirstTouch(), [])
  const found = async (text: string): Promise<ScanAnswer> => {
    const said = (await onFound(text)) ?? undefined
    giveSignal(said?.kind === 'wrong' ? 'wrong' : 'read')
    setAnswer(said)
    return said
  }
  const take = async (): Promise<void> => {
    if (typed.trim() === '') return
    const said = await found(typed.trim())
    if (said?.kind !== 'wrong') setTyped('')
  }
  return (
    <Dialog title={props.title} open onClose={props.onClose}>
      <Picture formats={formats} onText={(text) => void found(text)} />
      <div aria-live="polite">
        {answer !== undefined && (
          <p className={`scan-answer scan-answer-${answer.kind}`}>
            <span aria-hidden="true">{answer.kind === 'right' ? '✓' : '✕'}</span> {answer.words}
          </p>
        )}
      </div>
      <div className="scan-typed">
        <TextField
          label={props.typeLabel ?? 'Or type it'}
          mono
          width="full"
          value={typed}
          onChange={setTyped}
          onEnter={() => void take()}
        />
        <Button disabled={typed.trim() === ''} onPress={() => void take()}>
          Use it
        </Button>
      </div>
    </Dialog>
  )
}

function Picture(props: {
  readonly formats: readonly ScanFormat[]
  readonly onText: (text: string) => void
}): ReactNode {
  const { video, state, trouble, lamp, openAgain } = useScanning(props.formats, props.onText)
  const [lit, setLit] = useState(false)
  const words = useId()
  const light = async (): Promise<void> => {
    await lamp?.(!lit).then(
      () => setLit(!lit),
      () => undefined,
    )
  }
  return (
    <>
      {trouble !== undefined && (
        <div className="stack">
          <Note kind="warn">{trouble}</Note>
          <Button onPress={openAgain}>Open the camera again</Button>
        </div>
      )}
      <div className="scan-picture" hidden={state === 'failed'}>
        {/* The picture of the camera: it has no sound and no words. */}
        <video ref={video} className="scan-video" muted playsInline aria-describedby={words} aria-label="Camera" />
        <p id={words} className="scan-words">
          {state === 'opening' ? 'The camera is opening …' : 'Hold the code in the square'}
        </p>
      </div>
      {lamp !== undefined && (
        <Button pressed={lit} onPress={() => void light()}>
          {lit ? 'Lamp off' : 'Lamp on'}
        </Button>
      )}
    </>
  )
}
