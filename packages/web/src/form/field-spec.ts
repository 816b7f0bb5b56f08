import * as z from 'zod'
import { fieldWords } from './field-words.ts'

/** What a form asks for, read from a schema. Groups hold fields; lists hold rows of one shape. */
export type FieldSpec =
  | { readonly kind: 'text'; readonly long: boolean }
  | { readonly kind: 'date' }
  | { readonly kind: 'number'; readonly whole: boolean; readonly min?: number; readonly max?: number }
  | { readonly kind: 'choice'; readonly choices: readonly string[] }
  | { readonly kind: 'flag' }
  | { readonly kind: 'group'; readonly fields: readonly NamedField[] }
  | { readonly kind: 'list'; readonly row: FieldSpec; readonly atLeast: number }
  /** one of several shapes, told apart by the field `by` */
  | { readonly kind: 'variant'; readonly by: string; readonly options: readonly VariantOption[] }
  /** anything a plain field can't hold, edited as JSON; `fields` are those an object has besides ones of the user's own naming */
  | { readonly kind: 'json'; readonly fields?: readonly NamedField[] }

export interface VariantOption {
  readonly id: string
  /** the fields of this shape besides the one that tells it */
  readonly fields: readonly NamedField[]
}

export interface NamedField {
  readonly name: string
  readonly label: string
  readonly hint: string
  readonly unit: string
  readonly needed: boolean
  readonly preset: unknown
  readonly spec: FieldSpec
}

interface JsonSchema {
  readonly type?: string
  readonly format?: string
  readonly enum?: readonly (string | number | boolean)[]
  readonly const?: string | number | boolean
  readonly properties?: Readonly<Record<string, JsonSchema>>
  readonly additionalProperties?: boolean | JsonSchema
  readonly oneOf?: readonly JsonSchema[]
  readonly anyOf?: readonly JsonSchema[]
  readonly required?: readonly string[]
  readonly items?: JsonSchema
  readonly minItems?: number
  readonly minimum?: number
  readonly maximum?: number
  readonly maxLength?: number
  readonly description?: string
  readonly unit?: string
  readonly default?: unknown
}

/** Strings longer than this get room for several lines. */
const LONG_TEXT = 400

/** The fields of an object schema, in its order. */
export function fieldsOf(schema: z.ZodType): readonly NamedField[] {
  const json = z.toJSONSchema(schema, { io: 'input', unrepresentable: 'any', reused: 'inline' }) as JsonSchema
  const spec = specOf(json)
  return spec.kind === 'group' ? spec.fields : []
}

function specOf(json: JsonSchema): FieldSpec {
  if (json.enum !== undefined) return { kind: 'choice', choices: json.enum.map(String) }
  if (json.const !== undefined) return { kind: 'choice', choices: [String(json.const)] }
  switch (json.type) {
    case 'string':
      return json.format === 'date' ? { kind: 'date' } : { kind: 'text', long: (json.maxLength ?? 0) >= LONG_TEXT }
    case 'number':
    case 'integer':
      return numberOf(json)
    case 'boolean':
      return { kind: 'flag' }
    case 'array':
      return json.items === undefined
        ? { kind: 'json' }
        : { kind: 'list', row: specOf(json.items), atLeast: json.minItems ?? 0 }
    case 'object':
      if (json.properties === undefined) return { kind: 'json' }
      return { kind: isOpen(json) ? 'json' : 'group', fields: namedFields(json) }
    default:
      return variantOf(json.oneOf ?? json.anyOf ?? []) ?? { kind: 'json' }
  }
}

/** An object that also takes fields of the user's own names: no form can list those. */
function isOpen({ additionalProperties }: JsonSchema): boolean {
  return additionalProperties === true || typeof additionalProperties === 'object'
}

/** Shapes that all have one field with a different fixed value are told apart by it. */
function variantOf(shapes: readonly JsonSchema[]): FieldSpec | undefined {
  const by = Object.keys(shapes[0]?.properties ?? {}).find((name) =>
    shapes.every(({ properties }) => properties?.[name]?.const !== undefined),
  )
  if (by === undefined) return undefined
  const options = shapes.map((shape) => ({
    id: String(shape.properties?.[by]?.const),
    fields: namedFields(shape).filter(({ name }) => name !== by),
  }))
  return { kind: 'variant', by, options }
}

function numberOf({ type, minimum, maximum }: JsonSchema): FieldSpec {
  const plain = (limit: number | undefined): limit is number =>
    limit !== undefined && Math.abs(limit) < 1e6 && (limit === 0 || Math.abs(limit) > 1e-6)
  return {
    kind: 'number',
    whole: type === 'integer',
    ...(plain(minimum) ? { min: minimum } : {}),
    ...(plain(maximum) ? { max: maximum } : {}),
  }
}

function namedFields({ properties = {}, required = [] }: JsonSchema): NamedField[] {
  return Object.entries(properties).map(([name, json]) => ({
    name,
    ...fieldWords(name, json),
    needed: required.includes(name),
    preset: json.default,
    spec: specOf(json),
  }))
}
