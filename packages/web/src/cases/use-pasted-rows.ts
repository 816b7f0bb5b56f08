import {
  countLines,
  type PastedCases,
  readInSlices,
  readPastedCases,
  tooMuch,
} from '@rillmark/exchange/cases/pasted-cases.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { useEffect, useMemo, useState } from 'react'

/** So many lines can still be read and mended by eye; more are read beside the text area, which would only labour under them. */
const MOST_SHOWN_LINES = 300

export interface PastedRows {
  /** what stands in the text area */
  readonly text: string
  readonly type: (text: string) => void
  /** Judges what arrives by pasting; true when the area must not take it. */
  readonly arrive: (text: string) => boolean
  /** lines taken beside the text area, if any */
  readonly asideLines: number | undefined
  readonly takeAway: () => void
  /** undefined while it is being read */
  readonly read: PastedCases | undefined
  /** 0 to 1 while it is being read */
  readonly share: number
  /** why the last paste was not taken */
  readonly refused: Issue | undefined
}

/** Rows on their way from a spreadsheet: a few in the text area, many beside it, and far too many nowhere. */
export function usePastedRows(): PastedRows {
  const [text, setText] = useState('')
  const [aside, setAside] = useState<string>()
  const [refused, setRefused] = useState<Issue>()
  const [done, setDone] = useState<{ text: string; read?: PastedCases; share: number }>()
  const short = useMemo(() => readPastedCases(text), [text])
  useEffect(() => {
    if (aside === undefined) return undefined
    return readAside(aside, (share, read) => setDone({ text: aside, share, ...(read === undefined ? {} : { read }) }))
  }, [aside])
  const current = done?.text === aside ? done : undefined
  return {
    text,
    type: (typed) => {
      setText(typed)
      setRefused(undefined)
    },
    arrive: (arrived) => {
      const large = tooMuch(arrived)
      setRefused(large)
      if (large !== undefined) return true
      if (countLines(arrived) <= MOST_SHOWN_LINES) return false
      setAside(arrived)
      setText('')
      return true
    },
    asideLines: aside === undefined ? undefined : countLines(aside),
    takeAway: () => setAside(undefined),
    read: aside === undefined ? short : current?.read,
    share: current?.share ?? 0,
    refused,
  }
}

/** Reads slice by slice, letting the page breathe in between. Gives back how to stop. */
function readAside(text: string, tell: (share: number, read?: PastedCases) => void): () => void {
  const reading = readInSlices(text)
  let timer = setTimeout(slice)
  function slice(): void {
    const step = reading.next()
    if (step.done === true) return tell(1, step.value)
    tell(step.value)
    timer = setTimeout(slice)
  }
  return () => clearTimeout(timer)
}
