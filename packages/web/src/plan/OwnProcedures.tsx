import { localDate } from '@rillmark/casebook/units/local-time.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { issue } from '@rillmark/science/catalogue/issue.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import { acceptOwnProcedure } from '@rillmark/casebook/procedures/procedures.ts'
import { type ReactNode, useState } from 'react'
import { DataTable } from '../kit/DataTable.tsx'
import { FileDrop } from '../kit/FileDrop.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { useDerived } from '../store/investigation.tsx'
import { useWriting } from '../store/use-writing.ts'

const ownIn = ({ plan }: InvestigationState) => [...plan.procedures.values()]
const LARGEST_BYTES = 1_000_000

/** Procedures of a jurisdiction or an agency, added as files; they are planned before the built-in ones. */
export function OwnProcedures(): ReactNode {
  const own = useDerived(ownIn)
  const { issues, write, object } = useWriting()
  const [file, setFile] = useState('')

  const take = async (chosen: File): Promise<void> => {
    setFile(chosen.name)
    const read = await readJson(chosen)
    if (!read.ok) return object(read.issues)
    const accepted = acceptOwnProcedure(read.value)
    if (!accepted.ok) return object(accepted.issues)
    await write('procedure.added', { procedure: accepted.value })
  }

  return (
    <div className="stack">
      <p className="quiet prose">
        A procedure file (JSON) with its steps, volumes, hold time and sources. It joins the built-in ones, or replaces
        one of the same id, until a plan has been adopted with it.
      </p>
      {own.length > 0 && (
        <DataTable
          caption={`${own.length} of your own`}
          rows={own}
          rowId={({ id }) => id}
          columns={[
            { id: 'title', head: 'Procedure', cell: ({ body }) => body.procedure.title },
            { id: 'version', head: 'Version', cell: ({ body }) => body.procedure.version },
            { id: 'who', head: 'Added by', cell: (entry) => `${entry.author}, ${localDate(entry)}` },
          ]}
        />
      )}
      <ProblemList problems={issues} title={`Not taken: ${file}`} />
      <FileDrop
        label="a procedure file"
        hint="JSON, at most 1 MB"
        accept={['.json']}
        onFiles={([first]) => void (first && take(first))}
      />
    </div>
  )
}

async function readJson(file: File): Promise<{ ok: true; value: unknown } | { ok: false; issues: Issue[] }> {
  if (file.size > LARGEST_BYTES)
    return { ok: false, issues: [issue('', { expected: 'a file of at most 1 MB', received: `${file.size} bytes` })] }
  try {
    return { ok: true, value: JSON.parse(await file.text()) }
  } catch {
    return { ok: false, issues: [issue('', { expected: 'JSON', received: 'a file that can’t be read as JSON' })] }
  }
}
