import { buildSystem } from '@rillmark/casebook/building/build-system.ts'
import type { QuickDescription } from '@rillmark/casebook/building/quick-description.ts'
import { outletsAt, shapeOf } from '@rillmark/casebook/building/quick-description.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { issue } from '@rillmark/science/catalogue/issue.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import { type ReactNode, useDeferredValue, useEffect, useMemo, useRef, useState } from 'react'
import { RiserDiagram } from '../drawing/RiserDiagram.tsx'
import { Button } from '../kit/Button.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import type { DescribeProps } from './DescribeBuilding.tsx'
import { useKeptDraft } from './kept-draft.ts'
import { QuickForm } from './QuickForm.tsx'
import { emptyQuick, type QuickDraft, quickDraftOf, quickFrom, quickSoFar } from './quick-draft.ts'

/** More than this and the drawing waits until the building is described. */
const DRAWN_WHILE_TYPING = 5000
/** More than this is a table, not a description of two minutes. */
const MOST_OUTLETS = 20_000

/** The form and, beside it, what it says so far, drawn. */
export function QuickDescribe({ replaces, onDone }: DescribeProps): ReactNode {
  const { id, state, propose } = useInvestigation()
  const quick = state.building.described?.body.quick
  const [draft, setDraft, dropDraft] = useKeptDraft<QuickDraft>(`${id} quick`, () =>
    quick === undefined ? emptyQuick(state.brief.opened?.body.title ?? '') : quickDraftOf(quick),
  )
  const [tried, setTried] = useState(0)
  const [refused, setRefused] = useState<readonly Issue[]>([])
  const drawn = usePreview(draft)
  const missing = useMemo(() => issuesOf(draft), [draft])
  const shown = refused.length > 0 ? refused : tried > 0 ? missing : []

  const form = useRef<HTMLDivElement>(null)
  useEffect(() => {
    if (tried > 0) form.current?.querySelector('.field-issue')?.closest('.field')?.scrollIntoView({ block: 'center' })
  }, [tried])

  const describe = async (): Promise<void> => {
    setTried((times) => times + 1)
    const read = quickFrom(draft)
    if (!read.ok || issuesOf(draft).length > 0) return
    const body = { source: 'quick description' as const, quick: read.value, system: buildSystem(read.value) }
    const proposed = await propose('building.described', body)
    setRefused(proposed.ok ? [] : proposed.issues)
    if (!proposed.ok) return
    dropDraft()
    onDone()
  }

  return (
    <div className="describe">
      <div className="describe-form" ref={form}>
        <QuickForm
          draft={draft}
          onChange={(next) => {
            setRefused([])
            setDraft(next)
          }}
          issueAt={(path) => wordsFor(shown.find((one) => one.path === path))}
        />
        <ProblemList
          problems={[...refused, ...shown.filter(({ path }) => QUESTION_WORDS[path] === undefined)]}
          title={refused.length > 0 ? 'The record can’t take it' : 'To put right'}
        />
      </div>
      <div className="describe-preview">
        <Preview {...drawn} />
      </div>
      <div className="describe-foot">
        <Button kind="primary" onPress={() => void describe()}>
          {replaces === undefined ? 'Describe the building' : 'Replace the description'}
        </Button>
        <span role="status">
          {shown.length > 0 && refused.length === 0
            ? `Still to say: ${shown.map(({ path }) => QUESTION_WORDS[path] ?? path).join(', ')}`
            : drawn.words}
        </span>
      </div>
    </div>
  )
}

const QUESTION_WORDS: Readonly<Record<string, string>> = {
  name: 'name',
  floors: 'floors',
  risers: 'risers',
  recirculation: 'does hot water go round',
  mixing: 'is it mixed down',
  'supply.disinfectant': 'disinfectant of the supply',
}

const wordsFor = (found: Issue | undefined): string | undefined =>
  found === undefined ? undefined : found.received === 'nothing' ? 'Still to say.' : `Expected ${found.expected}.`

function issuesOf(draft: QuickDraft): readonly Issue[] {
  const read = quickFrom(draft)
  if (!read.ok) return read.issues
  const outlets = outletCount(read.value)
  if (outlets <= MOST_OUTLETS) return []
  return [issue('outlets', { expected: `at most ${MOST_OUTLETS}; bring more as tables`, received: outlets })]
}

interface Drawn {
  readonly system: WaterSystem | undefined
  readonly words: string
}

/** Follows the typing at its own pace, so that a large building never holds a key back. */
function usePreview(draft: QuickDraft): Drawn {
  const deferred = useDeferredValue(draft)
  return useMemo(() => {
    const quick = quickSoFar(deferred)
    if (quick === undefined) return { system: undefined, words: 'Floors and risers come first; then it draws itself.' }
    const outlets = outletCount(quick)
    const { floors, risers } = shapeOf(quick)
    const words = `${counted(outlets, 'outlet')} on ${counted(floors.length, 'floor')} and ${counted(risers.length, 'riser')}`
    if (outlets > DRAWN_WHILE_TYPING) return { system: undefined, words: `${words}; drawn once it is described` }
    return { system: buildSystem(quick), words }
  }, [deferred])
}

function outletCount(quick: QuickDescription): number {
  const { floors, risers } = shapeOf(quick)
  let count = 0
  for (const floor of floors)
    for (const riser of risers) for (const some of Object.values(outletsAt(quick, { floor, riser }))) count += some ?? 0
  return count
}

function Preview({ system }: Drawn): ReactNode {
  if (system === undefined)
    return (
      <div className="describe-blank">
        <p>
          The riser diagram draws itself here as you answer: floors across, risers up, outlets on them, plant below or
          on the roof.
        </p>
      </div>
    )
  return <RiserDiagram system={system} />
}
