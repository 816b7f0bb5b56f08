import type * as z from 'zod'
import type { Source } from './sources.ts'

export interface RunOptions {
  /** Told now and then how much of a long run is done, 0 to 1; it may throw to stop the run. */
  progress?: ((fraction: number) => void) | undefined
}

/**
 * Everything known about one calculation. The command, the API, the calculator pages, the report's method appendix
 * and the reference page all come from this and from nothing else.
 */
export interface Calculation<Input = unknown, Output = unknown> {
  id: string
  /** Raised when the result for the same input changes: a recorded figure names the version it came from. */
  version: number
  title: string
  /** Why an investigator wants it, in a sentence or two. */
  purpose: string
  /** The equation, with each symbol mapped to the field it stands for. */
  formula: { text: string; symbols: Record<string, string> }
  /** A plain object; every field has a description and, in its metadata, a `unit`. */
  input: z.ZodObject
  output: z.ZodObject
  /** Unit of each top-level field of input and output that has one. */
  units: Record<string, string>
  sources: Source[]
  /** What every answer is given with. */
  cautions: string[]
  /** What this one answer calls for beyond them: a figure that is odd or dangerous. */
  cautionsFor?(worked: { input: Input; result: Output }): string[]
  /** A worked example; the output is exactly what `run` gives for the input. */
  example: { input: unknown; output: unknown }
  run(input: Input, options?: RunOptions): Output
  /**
   * About how long a run takes (ms), told from input that is not checked yet: a number whatever it is given, 0 where it cannot tell.
   * A calculation without it is short whatever its input.
   */
  costMs?: ((input: unknown) => number) | undefined
}

interface Definition<Input extends z.ZodObject, Output extends z.ZodObject>
  extends Omit<Calculation, 'version' | 'input' | 'output' | 'units' | 'example' | 'run' | 'cautionsFor'> {
  /** 1 where not given. */
  version?: number
  input: Input
  output: Output
  example: { input: z.input<Input>; output: z.output<Output> }
  run(input: z.output<Input>, options?: RunOptions): z.output<Output>
  cautionsFor?(worked: { input: z.output<Input>; result: z.output<Output> }): string[]
}

/**
 * A descriptor with its types tied together and its units gathered from the schemas.
 *
 * @param definition all of it but the units
 * @source none: it computes nothing of the trade
 * @example
 * unitOf({ meta: () => ({ unit: 'mm' }) }) // => "mm"
 */
export function defineCalculation<Input extends z.ZodObject, Output extends z.ZodObject>(
  definition: Definition<Input, Output>,
): Calculation<z.output<Input>, z.output<Output>> {
  return { version: 1, ...definition, units: { ...unitsOf(definition.input), ...unitsOf(definition.output) } }
}

function unitsOf(schema: z.ZodObject): Record<string, string> {
  const pairs = Object.entries(schema.shape).map(([name, field]) => [name, unitOf(field as z.ZodType)] as const)
  return Object.fromEntries(pairs.filter(([, unit]) => unit !== ''))
}

/**
 * The cautions of one answer: those it alone calls for first, then those of every answer.
 *
 * @param calculation the descriptor
 * @param worked its checked input and its result
 * @source none: it computes nothing of the trade
 * @example
 * cautionsOf({ cautions: ['b'], cautionsFor: () => ['a'] }, { input: {}, result: {} }) // => ["a", "b"]
 */
export function cautionsOf(
  calculation: Pick<Calculation, 'cautions' | 'cautionsFor'>,
  worked: { input: unknown; result: unknown },
): string[] {
  return [...(calculation.cautionsFor?.(worked) ?? []), ...calculation.cautions]
}

/**
 * The unit in a field's metadata, '' where it has none.
 *
 * @param field a schema
 * @source none: it computes nothing of the trade
 * @example
 * unitOf({ meta: () => undefined }) // => ""
 */
export function unitOf(field: { meta(): object | undefined }): string {
  const meta = field.meta()
  const unit: unknown = meta === undefined ? undefined : Reflect.get(meta, 'unit')
  return typeof unit === 'string' ? unit : ''
}
