import type { ServerResponse } from 'node:http'
import { calculations, findCalculation, isLongRun, runCalculation } from '@rillmark/science/catalogue/catalogue.ts'
import type { Calculation } from '@rillmark/science/catalogue/descriptor.ts'
import type { FastifyPluginAsyncZod } from 'fastify-type-provider-zod'
import * as z from 'zod'
import { CalculationThread } from '../calculations/calculation-thread.ts'
import { Problem, problem } from '../http/problem.ts'
import { problemSchema, refusals } from '../http/schemas.ts'

const params = z.strictObject({ id: z.string().max(60) })
/** Room for the core-genome profiles of 2,000 isolates. */
const BODY_BYTES = 16 * 1024 * 1024

/** The calculations of the trade: the same descriptors as the command and the calculator pages. */
export const calculationRoutes: FastifyPluginAsyncZod = async (app) => {
  const thread = new CalculationThread()
  app.get(
    '/calculations',
    {
      schema: {
        summary: 'Every calculation, with inputs, units, sources and a worked example',
        tags: ['calculations'],
      },
    },
    async () => ({ calculations: calculations.map(described) }),
  )

  app.post(
    '/calculations/:id',
    {
      bodyLimit: BODY_BYTES,
      schema: {
        summary: 'Runs one calculation',
        tags: ['calculations'],
        params,
        body: z.unknown(),
        response: {
          200: z.object({ result: z.unknown(), sources: z.array(z.unknown()), cautions: z.array(z.string()) }),
          ...refusals,
          413: problemSchema,
          503: problemSchema,
        },
      },
    },
    async ({ params: { id }, body }, reply) => {
      if (findCalculation(id) === undefined)
        throw problem(404, {
          path: 'id',
          expected: `one of ${calculations.map((each) => each.id).join(', ')}`,
          received: id,
        })
      const request = { id, input: body }
      const answer = isLongRun(request) ? await thread.run(request, goneSignal(reply.raw)) : runCalculation(request)
      if ('issues' in answer) throw new Problem(422, answer.issues)
      return answer
    },
  )
}

/** Aborts when the connection closes before the answer is out. */
function goneSignal(response: ServerResponse): AbortSignal {
  const gone = new AbortController()
  response.once('close', () => gone.abort())
  return gone.signal
}

function described(calculation: Calculation): object {
  const { id, version, title, purpose, formula, units, sources, cautions, example } = calculation
  return {
    id,
    version,
    title,
    purpose,
    formula,
    units,
    sources,
    cautions,
    example,
    input: z.toJSONSchema(calculation.input, { io: 'input', unrepresentable: 'any' }),
    output: z.toJSONSchema(calculation.output, { unrepresentable: 'any' }),
  }
}
