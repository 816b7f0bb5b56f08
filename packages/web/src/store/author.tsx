import { createContext, type ReactNode, useContext, useMemo, useRef, useState } from 'react'
import { keep, readKept } from './keep.ts'

export interface Author {
  /** Who is writing; empty until asked. */
  readonly name: string
  readonly setName: (name: string) => void
  /** The name, asked for when something is first written here; empty when the person would not say. */
  readonly ask: () => Promise<string>
  /** True while the question stands on the screen. */
  readonly asking: boolean
  /** Answers the question; with an empty name it is withdrawn. */
  readonly answer: (name: string) => void
}

const UNKNOWN: Author = {
  name: '',
  setName: () => undefined,
  ask: () => Promise.resolve(''),
  asking: false,
  answer: () => undefined,
}

const Context = createContext<Author>(UNKNOWN)

/** Who is writing on this device. Goes on every entry. */
export function useAuthor(): Author {
  return useContext(Context)
}

export function AuthorProvider({ children }: { readonly children: ReactNode }): ReactNode {
  const [name, setKept] = useState(() => {
    const kept = readKept('author')
    return typeof kept === 'string' ? kept : ''
  })
  const [asking, setAsking] = useState(false)
  const waiting = useRef<((name: string) => void)[]>([])
  const value = useMemo((): Author => {
    const setName = (next: string): void => {
      keep('author', next)
      setKept(next)
    }
    const ask = (): Promise<string> => {
      if (name !== '') return Promise.resolve(name)
      setAsking(true)
      return new Promise((resolve) => waiting.current.push(resolve))
    }
    const answer = (given: string): void => {
      if (given !== '') setName(given)
      setAsking(false)
      for (const resolve of waiting.current.splice(0)) resolve(given)
    }
    return { name, setName, ask, asking, answer }
  }, [name, asking])
  return <Context value={value}>{children}</Context>
}
