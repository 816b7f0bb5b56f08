import { owedSamples } from '@rillmark/casebook/custody/owed.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import { type ReactNode, useMemo } from 'react'
import { Note } from '../kit/Note.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { localDay } from '../store/local-time.ts'

/** What a round is still owed: samples the laboratory rejected or could not read, until they were taken again. */
export function OwedNote({ round }: { readonly round: string }): ReactNode {
  const { state, version } = useInvestigation()
  const owed = useMemo(
    () => owedSamples(state, localDay()).filter((sample) => sample.round === round),
    // oxlint-disable-next-line react-hooks/exhaustive-deps -- the state is extended in place; the version tells when
    [version, round],
  )
  if (owed.length === 0) return null
  return (
    <div data-still="blank">
      <Note kind="warn">
        {counted(owed.length, 'sample')} of this round must be taken again:
        <ul>
          {owed.map(({ label, why }) => (
            <li key={label}>
              <span className="mono">{label}</span> {why}
            </li>
          ))}
        </ul>
      </Note>
    </div>
  )
}
