import { quickDescriptionSchema } from '@rillmark/casebook/building/quick-description.ts'
import { waterSystemSchema } from '@rillmark/casebook/building/water-system.ts'
import { fieldReadingsSchema } from '@rillmark/casebook/calibration/field-reading.ts'
import { conditionsSchema } from '@rillmark/casebook/conditions/conditions-schema.ts'
import { planSchema } from '@rillmark/casebook/plan/plan-file.ts'
import { planRequestSchema } from '@rillmark/casebook/plan/plan-input.ts'
import * as z from 'zod'
import { type Command, type CommandIo, exitCode } from './command.ts'
import { reportProblems } from './problems.ts'

interface Format {
  summary: string
  schema: z.ZodType
}

/** The file formats a schema can be asked for. To add one, add its line. */
const FORMATS: Readonly<Record<string, Format>> = {
  'quick-description': {
    summary: 'what a building’s water person says in two minutes',
    schema: quickDescriptionSchema,
  },
  'water-system': { summary: 'a building’s water as components and pipes', schema: waterSystemSchema },
  'plan-request': { summary: 'what a sampling plan is made from', schema: planRequestSchema },
  plan: { summary: 'a sampling plan', schema: planSchema },
  conditions: { summary: 'a building’s water, simulated over a repeating day', schema: conditionsSchema },
  'field-readings': { summary: 'readings that the simulation is fitted to', schema: fieldReadingsSchema },
}

const list = (): string =>
  Object.entries(FORMATS)
    .map(([name, { summary }]) => `  ${name.padEnd(18)} ${summary}\n`)
    .join('')

export const schemaCommand: Command = {
  name: 'schema',
  help: `Usage: rillmark schema NAME
       rillmark schema

Prints the JSON Schema of a file format; without NAME, lists the formats.

${list()}
Ends with 0 on success, 2 when there is no such format.
`,
  run: schema,
}

async function schema([name, ...more]: string[], io: CommandIo): Promise<number> {
  if (name === undefined) {
    io.out(list())
    return exitCode.success
  }
  const format = Object.hasOwn(FORMATS, name) && more.length === 0 ? FORMATS[name] : undefined
  if (format === undefined) {
    const expected = `one of ${Object.keys(FORMATS).join(', ')}`
    return reportProblems([{ path: 'NAME', expected, received: [name, ...more].join(' ') }], io)
  }
  io.out(`${JSON.stringify(z.toJSONSchema(format.schema, { io: 'input' }), null, 2)}\n`)
  return exitCode.success
}
