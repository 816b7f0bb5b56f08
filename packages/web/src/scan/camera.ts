/** An open camera and what it can do. */
export interface Camera {
  readonly stream: MediaStream
  /** switches the lamp; undefined where this camera has none */
  readonly lamp: ((on: boolean) => Promise<void>) | undefined
  readonly close: () => void
}

/** The camera on the back, sharp enough for a label at a hand's breadth. */
export async function openCamera(): Promise<Camera> {
  if (!('mediaDevices' in navigator)) throw new DOMException('no camera is offered to this page', 'NotSupportedError')
  const stream = await navigator.mediaDevices.getUserMedia({
    audio: false,
    video: { facingMode: { ideal: 'environment' }, width: { ideal: 1280 }, height: { ideal: 720 } },
  })
  const [track] = stream.getVideoTracks()
  return {
    stream,
    lamp: track === undefined || !hasLamp(track) ? undefined : (on) => track.applyConstraints(lampConstraint(on)),
    close: () => {
      for (const each of stream.getTracks()) each.stop()
    },
  }
}

/** The lamp belongs to the Image Capture standard, which the compiler's types leave out. */
const hasLamp = (track: MediaStreamTrack): boolean =>
  'getCapabilities' in track && Reflect.get(track.getCapabilities(), 'torch') === true

const lampConstraint = (on: boolean): MediaTrackConstraints => {
  const lamp: MediaTrackConstraintSet & { torch: boolean } = { torch: on }
  return { advanced: [lamp] }
}
