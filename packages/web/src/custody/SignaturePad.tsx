import { type PointerEvent, type ReactNode, useEffect, useRef, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { LatestOnly } from './latest-only.ts'

/** Pixels of the picture kept, whatever the screen: enough to read a name, small enough for a bad network. */
const WIDTH = 900
const HEIGHT = 300
const LINE = 5

/** Gives a finger or pen a place to sign; the picture comes as a PNG after each stroke, undefined when it was wiped. */
export function SignaturePad(props: {
  readonly label: string
  readonly onDrawn: (picture: Blob | undefined) => void
}): ReactNode {
  const canvas = useRef<HTMLCanvasElement>(null)
  const last = useRef<{ x: number; y: number }>(undefined)
  const [drawn, setDrawn] = useState(false)
  const [strokes] = useState(() => new LatestOnly())
  useEffect(() => {
    wipe(canvas.current)
    return () => strokes.drop()
  }, [strokes])
  const at = (event: PointerEvent<HTMLCanvasElement>): { x: number; y: number } => {
    const box = event.currentTarget.getBoundingClientRect()
    return { x: ((event.clientX - box.left) / box.width) * WIDTH, y: ((event.clientY - box.top) / box.height) * HEIGHT }
  }
  const move = (event: PointerEvent<HTMLCanvasElement>): void => {
    if (last.current === undefined) return
    const to = at(event)
    line(canvas.current, { from: last.current, to })
    last.current = to
  }
  const end = (): void => {
    if (last.current === undefined) return
    last.current = undefined
    setDrawn(true)
    // a picture that is made only after the pad was wiped, or another way to sign was chosen, is of no use
    const isLatest = strokes.begin()
    canvas.current?.toBlob((picture) => {
      if (isLatest()) props.onDrawn(picture ?? undefined)
    }, 'image/png')
  }
  const clear = (): void => {
    strokes.drop()
    wipe(canvas.current)
    setDrawn(false)
    props.onDrawn(undefined)
  }
  return (
    <div className="sign">
      <span className="field-label" id="sign-label">
        {props.label}
      </span>
      <canvas
        ref={canvas}
        className="sign-glass"
        width={WIDTH}
        height={HEIGHT}
        role="img"
        aria-labelledby="sign-label"
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId)
          last.current = at(event)
          move(event)
        }}
        onPointerMove={move}
        onPointerUp={end}
        onPointerCancel={end}
      />
      <div className="sign-foot">
        <span className="faint">{drawn ? 'Signed.' : 'Sign with a finger or a pen.'}</span>
        <Button kind="text" disabled={!drawn} onPress={clear}>
          Wipe and sign again
        </Button>
      </div>
    </div>
  )
}

interface Point {
  readonly x: number
  readonly y: number
}

/** Ink on white, in every theme: it is a picture of paper. */
function wipe(canvas: HTMLCanvasElement | null): void {
  const pen = canvas?.getContext('2d')
  if (pen === null || pen === undefined) return
  pen.fillStyle = '#ffffff'
  pen.fillRect(0, 0, WIDTH, HEIGHT)
}

function line(canvas: HTMLCanvasElement | null, { from, to }: { from: Point; to: Point }): void {
  const pen = canvas?.getContext('2d')
  if (pen === null || pen === undefined) return
  pen.strokeStyle = '#12202b'
  pen.lineWidth = LINE
  pen.lineCap = 'round'
  pen.beginPath()
  pen.moveTo(from.x, from.y)
  pen.lineTo(to.x + 0.01, to.y)
  pen.stroke()
}
