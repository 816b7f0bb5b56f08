import * as z from 'zod'
import { circuit, isoDate, sampleKind } from '../entry/fields.ts'
import { parseWith } from '@rillmark/science/catalogue/from-zod.ts'
import type { Issue } from '@rillmark/science/catalogue/issue.ts'
import { figureSchema, rangeFigureSchema, sourcedFields } from '../units/figure.ts'

const id = z
  .string()
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'lower-case letters, digits and dashes')
  .max(60)
const words = (max: number) => z.string().trim().min(1).max(max)

const STEP_KINDS = ['caution', 'prepare', 'collect', 'neutralize', 'run', 'read', 'label', 'note'] as const

const REQUIRED_READINGS = ['temperature-curve-hot', 'temperature-curve-cold', 'ph', 'residual'] as const
export type RequiredReading = (typeof REQUIRED_READINGS)[number]

const cautionSchema = z.strictObject({ text: words(200), ...sourcedFields })

const stepSchema = z.strictObject({
  id,
  title: words(60),
  /** short enough for a phone */
  instruction: words(200),
  kind: z.enum(STEP_KINDS),
  /** the person may leave it out without that being a deviation */
  optional: z.boolean().default(false),
  timer: figureSchema.optional(),
  volume: rangeFigureSchema.optional(),
  headspace: figureSchema.optional(),
  dose: figureSchema.optional(),
  readings: z.array(z.enum(REQUIRED_READINGS)).default([]),
  /** the kind of sample this step ends with in the container */
  produces: sampleKind.optional(),
  /** the step is there only for this kind of sample and falls away when it is not planned */
  serves: sampleKind.optional(),
  container: id.optional(),
  /** shown at this step, once */
  caution: cautionSchema.optional(),
  ...sourcedFields,
})

const containerSchema = z.strictObject({
  id,
  name: words(120),
  capacity: figureSchema,
  forKind: sampleKind.optional(),
  ...sourcedFields,
})

const neutralizerSchema = z.strictObject({
  agent: z.literal('sodium thiosulfate'),
  normality: figureSchema,
  renewAfter: figureSchema,
  covers: figureSchema,
})

/** How long a sample may wait and how warm it may get. Where published figures disagree, all are kept; `hours` and `transport` are used. */
const holdSchema = z.strictObject({
  hours: figureSchema,
  transport: rangeFigureSchema,
  disagreeing: z.array(figureSchema).max(8).default([]),
  meaning: words(400),
})

const procedureShape = z.strictObject({
  format: z.literal('rillmark/procedure@1'),
  id,
  version: words(40),
  date: isoDate,
  title: words(80),
  purpose: words(300),
  /** kinds of component it is made for; empty: any */
  components: z.array(words(40)).default([]),
  circuits: z.array(circuit).default([]),
  sampleKinds: z.array(sampleKind).min(1),
  containers: z.array(containerSchema).default([]),
  /** usual time at the point, for planning */
  minutes: rangeFigureSchema,
  steps: z.array(stepSchema).min(1).max(30),
  neutralizer: neutralizerSchema.optional(),
  hold: holdSchema.optional(),
  notes: z.array(words(400)).max(8).default([]),
})

type Shape = z.infer<typeof procedureShape>
export type ProcedureStep = Shape['steps'][number]

/**
 * A versioned way of taking one point's samples: ordered steps, volumes, container, neutralizer, readings and hold time, each figure with
 * its source. The order that makes a sample what it is belongs to the schema: nothing runs before the first flush and its swab; hot
 * readings come after every sample of the point.
 */
export const procedureSchema = procedureShape.superRefine((procedure, context) => {
  const complain = (path: (string | number)[], message: string): void =>
    context.addIssue({ code: 'custom', path, message })
  for (const problem of [...orderProblems(procedure.steps), ...referenceProblems(procedure)])
    complain(problem.path, problem.message)
})

export type Procedure = z.infer<typeof procedureSchema>

/** Checks a procedure someone wrote themselves, telling everything that is wrong at once. */
export function readProcedure(input: unknown): { ok: true; value: Procedure } | { ok: false; issues: Issue[] } {
  return parseWith(procedureSchema, input)
}

interface Problem {
  readonly path: (string | number)[]
  readonly message: string
}

function orderProblems(steps: readonly ProcedureStep[]): Problem[] {
  const firstRun = steps.findIndex((step) => step.kind === 'run' || step.kind === 'read')
  const lastCollect = steps.findLastIndex(({ kind }) => kind === 'collect')
  return steps.flatMap((step, index): Problem[] => {
    const path = ['steps', index]
    if (step.kind === 'collect' && step.produces === 'first-flush-swab' && firstRun !== -1 && firstRun < index)
      return [{ path, message: 'first flush and swab before any running or reading' }]
    if (step.readings.includes('temperature-curve-hot') && index < lastCollect)
      return [{ path, message: 'hot readings after every sample of the point' }]
    return []
  })
}

function referenceProblems(procedure: Shape): Problem[] {
  const containers = new Set(procedure.containers.map((container) => container.id))
  const seen = new Set<string>()
  const problems = procedure.steps.flatMap((step, index): Problem[] => {
    const found: Problem[] = []
    if (seen.has(step.id)) found.push({ path: ['steps', index, 'id'], message: 'an id no other step has' })
    seen.add(step.id)
    if (step.container !== undefined && !containers.has(step.container))
      found.push({ path: ['steps', index, 'container'], message: 'the id of one of its containers' })
    for (const field of ['produces', 'serves'] as const) {
      const kind = step[field]
      if (kind !== undefined && !procedure.sampleKinds.includes(kind))
        found.push({ path: ['steps', index, field], message: 'one of its sample kinds' })
    }
    return found
  })
  const takesWater = procedure.steps.some(({ produces }) => produces !== undefined && produces !== 'readings-only')
  if (takesWater && procedure.hold === undefined)
    problems.push({ path: ['hold'], message: 'a hold time for the samples it takes' })
  return problems
}
