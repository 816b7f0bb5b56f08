import { keep, readKept } from '../store/keep.ts'

/** What the hand is told without looking: a reading is due, a time is over, a label was read, something does not fit. */
export type SignalKind = 'due' | 'over' | 'read' | 'wrong'

interface Tone {
  readonly hertz: number
  readonly ms: number
}

interface Shape {
  /** milliseconds on, off, on … as the Vibration API takes them */
  readonly vibration: readonly number[]
  readonly tones: readonly Tone[]
}

/** Told apart by number and direction of the tones, so that neither pitch nor loudness has to be judged. Our own choice. */
const SHAPES: Readonly<Record<SignalKind, Shape>> = {
  due: { vibration: [60], tones: [{ hertz: 660, ms: 90 }] },
  over: {
    vibration: [200, 100, 200, 100, 300],
    tones: [
      { hertz: 660, ms: 160 },
      { hertz: 880, ms: 160 },
      { hertz: 1100, ms: 320 },
    ],
  },
  read: { vibration: [40], tones: [{ hertz: 990, ms: 70 }] },
  wrong: {
    vibration: [120, 80, 120],
    tones: [
      { hertz: 330, ms: 140 },
      { hertz: 247, ms: 220 },
    ],
  },
}

export interface SignalChoice {
  readonly sound: boolean
  readonly vibration: boolean
}

/** What this device may do; both until somebody switches one off. */
export function signalChoice(): SignalChoice {
  const kept = readKept('signals')
  const off = (what: keyof SignalChoice): boolean =>
    typeof kept === 'object' && kept !== null && what in kept && Reflect.get(kept, what) === false
  return { sound: !off('sound'), vibration: !off('vibration') }
}

export function chooseSignals(choice: SignalChoice): void {
  keep('signals', choice)
}

/** Sounds and vibrates as far as the device can and its person wants. What can't be done is left out in silence. */
export function giveSignal(kind: SignalKind): void {
  const { sound, vibration } = signalChoice()
  const shape = SHAPES[kind]
  if (vibration && 'vibrate' in navigator) navigator.vibrate([...shape.vibration])
  if (sound && context?.state === 'running') play(context, shape.tones)
}

let context: AudioContext | undefined

/** A browser lets a page sound only after a touch: the first one opens the way. Gives back how to stop listening. */
export function soundAfterFirstTouch(): () => void {
  const open = (): void => {
    context ??= typeof AudioContext === 'undefined' ? undefined : new AudioContext()
    if (context?.state === 'suspended') void context.resume().catch(() => undefined)
  }
  const touches = ['pointerdown', 'keydown'] as const
  for (const touch of touches) window.addEventListener(touch, open, { passive: true })
  return () => {
    for (const touch of touches) window.removeEventListener(touch, open)
  }
}

const LOUDNESS = 0.35
/** rise and fall of a tone, so that it does not click */
const EDGE_S = 0.012
const GAP_S = 0.05

function play(on: AudioContext, tones: readonly Tone[]): void {
  let at = on.currentTime + EDGE_S
  for (const { hertz, ms } of tones) {
    const [oscillator, gain] = [on.createOscillator(), on.createGain()]
    const end = at + ms / 1000
    oscillator.frequency.value = hertz
    gain.gain.setValueAtTime(0, at)
    gain.gain.linearRampToValueAtTime(LOUDNESS, at + EDGE_S)
    gain.gain.setValueAtTime(LOUDNESS, end - EDGE_S)
    gain.gain.linearRampToValueAtTime(0, end)
    oscillator.connect(gain).connect(on.destination)
    oscillator.start(at)
    oscillator.stop(end)
    at = end + GAP_S
  }
}
