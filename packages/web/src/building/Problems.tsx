import type { SystemProblem } from '@rillmark/casebook/building/check-parts.ts'
import { componentName } from '@rillmark/casebook/building/labels.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import { type ReactNode, useMemo, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import type { Selected } from './BuildingInHand.tsx'
import { COMPONENT_LABELS, PIPE_LABELS } from './facts.ts'

const SHOWN_FIRST = 8

interface NamedProblem {
  readonly path: string
  readonly expected: string
  readonly received: string
  readonly goTo: Selected | undefined
}

/** Everything the check finds, errors first, each with the way to its place. */
export function Problems(props: {
  readonly system: WaterSystem
  readonly problems: readonly SystemProblem[]
  readonly onSelect: (selected: Selected) => void
}): ReactNode {
  const { system, problems, onSelect } = props
  const named = useMemo(
    () => problems.map((problem) => ({ problem, said: namedIn(system, problem) })),
    [system, problems],
  )
  if (problems.length === 0)
    return <p className="quiet">No problem found: water comes to every outlet, and every loop closes.</p>
  const of = (severity: SystemProblem['severity']): NamedProblem[] =>
    named.filter(({ problem }) => problem.severity === severity).map(({ said }) => said)
  const jump = (goTo: Selected | undefined): void => {
    if (goTo !== undefined) onSelect(goTo)
  }
  return (
    <>
      <Some problems={of('error')} kind="bad" title="stop planning and simulation" onJump={jump} />
      <Some problems={of('warning')} kind="warn" title="to look at again" onJump={jump} />
    </>
  )
}

function Some(props: {
  readonly problems: readonly NamedProblem[]
  readonly kind: 'bad' | 'warn'
  readonly title: string
  readonly onJump: (goTo: Selected | undefined) => void
}): ReactNode {
  const { problems, kind } = props
  const [all, setAll] = useState(false)
  const shown = all ? problems : problems.slice(0, SHOWN_FIRST)
  const placed = shown.filter(({ goTo }) => goTo !== undefined)
  const unplaced = shown.filter(({ goTo }) => goTo === undefined)
  const words = `${counted(problems.length, 'problem')} ${props.title}`
  return (
    <div className="building-problems">
      <ProblemList
        problems={placed}
        kind={kind}
        title={words}
        onJump={(problem) => props.onJump((problem as NamedProblem).goTo)}
      />
      <ProblemList problems={unplaced} kind={kind} title={placed.length > 0 ? 'Of the building as a whole' : words} />
      {shown.length < problems.length && (
        <Button kind="text" onPress={() => setAll(true)}>
          Show all {problems.length}
        </Button>
      )}
    </div>
  )
}

/** `pipes.12.boreMm` as `Pipe cold-a-f2: bore`. */
function namedIn(system: WaterSystem, problem: SystemProblem): NamedProblem {
  const { path, expected, received, component: id } = problem
  const [list, , ...rest] = path.split('.')
  const fact = rest.filter((step) => step !== 'use').join('.')
  const part = list === 'components' ? system.components.find((one) => one.id === id) : undefined
  if (part !== undefined) {
    const words = COMPONENT_LABELS[fact]
    const said = words === undefined ? componentName(part) : `${componentName(part)}: ${words.toLowerCase()}`
    return { path: said, expected, received, goTo: { kind: 'part', id: part.id } }
  }
  const pipe = system.pipes.find((one) => one.id === id)
  if (pipe !== undefined) {
    const words = PIPE_LABELS[fact]
    const said = words === undefined ? `Pipe ${pipe.id}` : `Pipe ${pipe.id}: ${words.toLowerCase()}`
    return { path: said, expected, received, goTo: { kind: 'pipes', ids: [pipe.id] } }
  }
  return { path: WHOLE_WORDS[path] ?? path, expected, received, goTo: undefined }
}

const WHOLE_WORDS: Readonly<Record<string, string>> = {
  'supply.disinfectant.kind': 'Supply: disinfectant',
  'supply.disinfectant.residualMgPerL': 'Supply: residual',
  'supply.temperatureC': 'Supply: temperature',
  components: 'The building',
}
