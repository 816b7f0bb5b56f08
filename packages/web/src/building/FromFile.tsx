import { checkSystem, isUsable } from '@rillmark/casebook/building/check-system.ts'
import { quickDescriptionSchema } from '@rillmark/casebook/building/quick-description.ts'
import { buildSystem } from '@rillmark/casebook/building/build-system.ts'
import { isOutlet, type WaterSystem, waterSystemSchema } from '@rillmark/casebook/building/water-system.ts'
import type { BodyOf } from '@rillmark/casebook/entry/kinds.ts'
import { type Issue, issue } from '@rillmark/science/catalogue/issue.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import { type ReactNode, useState } from 'react'
import { RiserDiagram } from '../drawing/RiserDiagram.tsx'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { FileDrop } from '../kit/FileDrop.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import type { DescribeProps } from './DescribeBuilding.tsx'

const LARGEST_BYTES = 50 * 1024 * 1024
const SHOWN_PROBLEMS = 100

interface ReadFile {
  readonly name: string
  readonly body: BodyOf<'building.described'> | undefined
  readonly errors: readonly Issue[]
  readonly warnings: readonly Issue[]
}

/** A water-system file, or a quick description as a file: checked whole before anything is recorded. */
export function FromFile({ replaces, onDone }: DescribeProps): ReactNode {
  const { propose } = useInvestigation()
  const [read, setRead] = useState<ReadFile>()
  const [refused, setRefused] = useState<readonly Issue[]>([])

  const record = async (body: BodyOf<'building.described'>): Promise<void> => {
    const proposed = await propose('building.described', body)
    if (proposed.ok) onDone()
    else setRefused(proposed.issues)
  }

  return (
    <div className="describe-way">
      <FileDrop
        label="a water-system file"
        hint="JSON, in the format rillmark/water-system@1, or a quick description as a file"
        accept={['.json', 'application/json']}
        onFiles={([file]) => {
          setRefused([])
          if (file !== undefined) void readFile(file).then(setRead)
        }}
      />
      {read !== undefined && (
        <>
          <FileProblems problems={[...refused, ...read.errors]} kind="bad" name={read.name} />
          <FileProblems problems={read.warnings} kind="warn" name={read.name} />
          {read.body !== undefined && (
            <>
              <ButtonRow>
                <Button kind="primary" onPress={() => void record(read.body as BodyOf<'building.described'>)}>
                  {replaces === undefined ? 'Describe the building from it' : 'Replace the description by it'}
                </Button>
                <span>{summary(read.body.system)}</span>
              </ButtonRow>
              <div className="describe-drawing">
                <RiserDiagram system={read.body.system} />
              </div>
            </>
          )}
        </>
      )}
    </div>
  )
}

export function FileProblems(props: {
  readonly problems: readonly Issue[]
  readonly kind: 'bad' | 'warn'
  readonly name: string
}): ReactNode {
  const { problems, kind, name } = props
  const more = problems.length - SHOWN_PROBLEMS
  const head =
    kind === 'bad'
      ? `${name} can’t be used as it is: ${counted(problems.length, 'problem')}`
      : `Look again at ${counted(problems.length, 'thing')} in ${name}`
  return (
    <ProblemList
      problems={problems.slice(0, SHOWN_PROBLEMS)}
      kind={kind}
      title={more > 0 ? `${head}; the first ${SHOWN_PROBLEMS} are shown` : head}
    />
  )
}

export const summary = ({ name, components, pipes }: WaterSystem): string =>
  `${name}: ${counted(components.filter(isOutlet).length, 'outlet')}, ${counted(components.length, 'part')}, ${counted(pipes.length, 'pipe')}`

async function readFile(file: File): Promise<ReadFile> {
  const { name } = file
  const refuse = (found: Issue): ReadFile => ({ name, body: undefined, errors: [found], warnings: [] })
  if (file.size > LARGEST_BYTES)
    return refuse(issue('file', { expected: 'at most 50 MB', received: `${Math.ceil(file.size / 1e6)} MB` }))
  try {
    return readSystem(name, JSON.parse(await file.text()))
  } catch {
    return refuse(issue('file', { expected: 'a JSON file', received: name }))
  }
}

function readSystem(name: string, json: unknown): ReadFile {
  const quick = quickDescriptionSchema.safeParse(json)
  if (quick.success) {
    const system = buildSystem(quick.data)
    return { name, body: { source: 'quick description', quick: quick.data, system }, errors: [], warnings: [] }
  }
  const problems = checkSystem(json)
  const system = isUsable(problems) ? waterSystemSchema.parse(json) : undefined
  return {
    name,
    body: system === undefined ? undefined : { source: 'file', system },
    errors: problems.filter(({ severity }) => severity === 'error'),
    warnings: problems.filter(({ severity }) => severity === 'warning'),
  }
}
