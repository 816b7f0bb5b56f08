import { createContext, type ReactNode, useContext, useMemo, useState } from 'react'
import { keep, readKept } from './keep.ts'

export interface Author {
  /** Who is writing; empty until asked. */
  readonly name: string
  readonly setName: (name: string) => void
}

const Context = createContext<Author>({ name: '', setName: () => undefined })

/** Who is writing on this device. Goes on every entry. */
export function useAuthor(): Author {
  return useContext(Context)
}

export function AuthorProvider({ children }: { readonly children: ReactNode }): ReactNode {
  const [name, setKept] = useState(() => {
    const kept = readKept('author')
    return typeof kept === 'string' ? kept : ''
  })
  const value = useMemo(() => {
    const setName = (next: string): void => {
      keep('author', next)
      setKept(next)
    }
    return { name, setName }
  }, [name])
  return <Context value={value}>{children}</Context>
}
