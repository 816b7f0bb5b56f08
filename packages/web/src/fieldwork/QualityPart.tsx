import { qualityOwed } from '@rillmark/casebook/fieldwork/quality.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import { type ReactNode, useMemo } from 'react'
import { Button } from '../kit/Button.tsx'
import { Note } from '../kit/Note.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { newStopId } from './new-stop-id.ts'
import { NotKept, useWriting } from './stop-tools.tsx'

/** Says when stops added or given up on the way leave a round short of blanks or duplicates; a blank is added with one tap. */
export function QualityPart({ round }: { readonly round: string }): ReactNode {
  const { state, version } = useInvestigation()
  const writing = useWriting()
  // oxlint-disable-next-line react-hooks/exhaustive-deps -- the state is extended in place; the version tells when
  const owed = useMemo(() => qualityOwed(state, round), [version, round])
  if (owed.blanksOwed === 0 && owed.duplicatesOwed === 0) return null
  const { samples, blanks, duplicates } = owed
  const add = (): void => {
    const reason = `${counted(samples, 'sample')} call for another blank`
    void writing.write('stop.added', {
      round,
      reason,
      stop: {
        id: newStopId(),
        title: `Field blank ${blanks + 1}`,
        samples: [{ sampleKind: 'field-blank', procedure: 'field-blank' }],
        reasons: [{ obligation: 'quality', text: reason, evidence: [] }],
        rank: 1,
        minutes: BLANK_MINUTES,
      },
    })
  }
  return (
    <div className="stack">
      <Note kind="warn">
        {counted(samples, 'sample')}, {counted(blanks, 'field blank')}, {counted(duplicates, 'duplicate')}.
        {owed.blanksOwed > 0 && ` ${counted(owed.blanksOwed, 'more blank')} would match them.`}
        {owed.duplicatesOwed > 0 &&
          ` ${counted(owed.duplicatesOwed, 'more duplicate')} would match them: fill two bottles at one of the next stops.`}
      </Note>
      {owed.blanksOwed > 0 && (
        <Button busy={writing.busy} onPress={add}>
          Add a field blank
        </Button>
      )}
      <NotKept issues={writing.issues} />
    </div>
  )
}

/** between the 3 and 5 min of the procedure */
const BLANK_MINUTES = 4
