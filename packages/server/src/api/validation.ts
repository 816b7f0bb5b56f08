import { parseWith } from '@rillmark/science/catalogue/from-zod.ts'
import type { FastifyInstance } from 'fastify'
import type * as z from 'zod'
import { Problem } from '../http/problem.ts'

/** Requests are checked by zod and refused with issues; answers are written as they are. */
export function checkWithZod(app: FastifyInstance): void {
  app.setValidatorCompiler<z.ZodType>(({ schema, httpPart }) => (data: unknown) => {
    const parsed = parseWith(schema, data)
    if (parsed.ok) return { value: parsed.value }
    const status = httpPart === 'params' ? 404 : 400
    return { error: new Problem(status, parsed.issues) }
  })
  app.setSerializerCompiler(() => (data) => JSON.stringify(data))
}
