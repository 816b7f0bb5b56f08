import { sha256OfBytes } from '@rillmark/casebook/chain/link.ts'
import type { LoggerReadingOf } from '@rillmark/exchange/custody/logger-csv.ts'
import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import { useState } from 'react'
import { useInvestigation } from '../store/investigation.tsx'
import { localInstant } from '../store/local-time.ts'
import { textIn } from '../store/typed-values.ts'

interface Choices {
  readonly offset: string
  readonly order?: 'day-month-year' | 'month-day-year'
  readonly unit?: 'C' | 'F'
  readonly column?: number
  readonly logger: string
}

export interface LoggerFileState {
  readonly file: { readonly name: string; readonly content: Uint8Array } | undefined
  readonly read: LoggerReadingOf | undefined
  readonly choices: Choices
  readonly issues: readonly Issue[]
  readonly busy: boolean
  readonly open: (file: File) => Promise<void>
  readonly drop: () => void
  readonly choose: (change: Partial<Choices>) => void
  /** writes all of it, in as many entries as it takes, all or none */
  readonly write: () => Promise<void>
}

const reader = () => import('@rillmark/exchange/custody/logger-csv.ts')

/** A logger's file on its way into the record of one consignment. */
export function useLoggerFile(consignment: string, onWritten: () => void): LoggerFileState {
  const { proposeAll } = useInvestigation()
  const [file, setFile] = useState<LoggerFileState['file']>()
  const [read, setRead] = useState<LoggerReadingOf>()
  const [choices, setChoices] = useState<Choices>(() => ({ offset: localInstant().offset, logger: '' }))
  const [issues, setIssues] = useState<readonly Issue[]>([])
  const [busy, setBusy] = useState(false)
  const readAgain = async (content: Uint8Array, by: Choices): Promise<void> => {
    const { readLoggerCsv } = await reader()
    setRead(readLoggerCsv(content, by))
  }
  return {
    file,
    read,
    choices,
    issues,
    busy,
    open: async (given) => {
      const content = new Uint8Array(await given.arrayBuffer())
      setIssues([])
      setFile({ name: given.name, content })
      await readAgain(content, choices)
    },
    drop: () => {
      setFile(undefined)
      setRead(undefined)
      setIssues([])
    },
    choose: (change) => {
      const next = { ...choices, ...change }
      setChoices(next)
      if (file !== undefined) void readAgain(file.content, next)
    },
    write: async () => {
      if (file === undefined || read?.ok !== true) return
      setBusy(true)
      try {
        const { loggerEntries } = await import('@rillmark/exchange/custody/logger-entries.ts')
        const about = {
          consignment,
          file: { name: file.name.slice(0, 200), sha256: sha256OfBytes(file.content) },
          logger: textIn(choices.logger),
        }
        const written = await proposeAll(
          loggerEntries(read.readings, about).map((body) => ({ kind: 'temperature.logged' as const, body })),
        )
        if (written.ok) onWritten()
        else setIssues(written.refused.flatMap((each) => each.issues))
      } catch (error) {
        setIssues([issue('', { expected: 'to be kept on this device', received: String(error) })])
      } finally {
        setBusy(false)
      }
    },
  }
}
