import { type RefObject, useCallback, useEffect, useRef, useState } from 'react'
import { type Camera, openCamera } from './camera.ts'
import { cameraTrouble } from './camera-trouble.ts'
import { openDetector, type ScanFormat } from './open-detector.ts'
import { seenAgain } from './seen-again.ts'

/** A pause between two looks, so that the phone stays cool and the page answers. */
const LOOK_EVERY_MS = 120

export interface Scanning {
  readonly video: RefObject<HTMLVideoElement | null>
  readonly state: 'opening' | 'looking' | 'failed'
  /** why there is no picture, in words */
  readonly trouble: string | undefined
  readonly lamp: ((on: boolean) => Promise<void>) | undefined
  readonly openAgain: () => void
}

/** Holds a camera open while the part is on screen and hands over every symbol it is shown, each once while it stays in view. */
export function useScanning(formats: readonly ScanFormat[], onText: (text: string) => void): Scanning {
  const video = useRef<HTMLVideoElement>(null)
  const [attempt, setAttempt] = useState(0)
  const [camera, setCamera] = useState<Camera>()
  const [trouble, setTrouble] = useState<string>()
  const tell = useRef(onText)
  useEffect(() => {
    tell.current = onText
  })
  const wanted = formats.join(' ')
  useEffect(() => {
    let open: Camera | undefined
    let over = false
    const fail = (error: unknown): void => {
      if (!over) setTrouble(cameraTrouble(error))
    }
    const run = async (): Promise<void> => {
      open = await openCamera()
      if (over || video.current === null) return open.close()
      open.stream.getVideoTracks()[0]?.addEventListener('ended', () => fail(new DOMException('', 'AbortError')))
      setCamera(open)
      video.current.srcObject = open.stream
      await video.current.play().catch(() => undefined)
      await look({ video: video.current, formats, until: () => over, tell: (text) => tell.current(text) })
    }
    run().catch(fail)
    return () => {
      over = true
      open?.close()
      setCamera(undefined)
      setTrouble(undefined)
    }
    // oxlint-disable-next-line react-hooks/exhaustive-deps -- the formats are told by their names
  }, [attempt, wanted])
  return {
    video,
    trouble,
    state: trouble !== undefined ? 'failed' : camera === undefined ? 'opening' : 'looking',
    lamp: camera?.lamp,
    openAgain: useCallback(() => setAttempt((now) => now + 1), []),
  }
}

async function look(of: {
  video: HTMLVideoElement
  formats: readonly ScanFormat[]
  until: () => boolean
  tell: (text: string) => void
}): Promise<void> {
  const detector = await openDetector(of.formats)
  const again = seenAgain()
  while (!of.until()) {
    if (of.video.readyState >= HTMLMediaElement.HAVE_CURRENT_DATA && !document.hidden)
      for (const { rawValue } of await detector.detect(of.video))
        if (!of.until() && !again(rawValue, performance.now())) of.tell(rawValue)
    await new Promise((resume) => setTimeout(resume, LOOK_EVERY_MS))
  }
}
