import * as z from 'zod'

/** One field of a calculation as help and documents show it. */
export interface FieldRow {
  /** Dotted path; `[]` marks the items of a list, `(kind)` the shape of a kind, `*` names of the user's own. */
  path: string
  kind: string
  /** 'optional', 'default …' or '' where it must be given. */
  need: string
  description: string
}

interface FieldSchema {
  type?: string
  enum?: string[]
  description?: string
  default?: unknown
  properties?: Record<string, FieldSchema>
  required?: string[]
  items?: FieldSchema
  const?: unknown
  oneOf?: FieldSchema[]
  anyOf?: FieldSchema[]
  additionalProperties?: boolean | FieldSchema
}

/**
 * The fields of a schema, nested ones after their parent.
 *
 * @param schema input or output of a calculation
 * @source none: it computes nothing of the trade
 * @example
 * fieldRows(z.object({ lengthM: z.number() }))[0].path // => "lengthM"
 */
export function fieldRows(schema: z.ZodObject): FieldRow[] {
  return rowsOf(z.toJSONSchema(schema, { io: 'input' }) as FieldSchema, '')
}

function rowsOf({ properties = {}, required = [] }: FieldSchema, above: string): FieldRow[] {
  return Object.entries(properties).flatMap(([name, field]) => {
    const path = `${above}${name}`
    const row = {
      path,
      kind: kindOf(field),
      need: needOf(field, required.includes(name)),
      description: field.description ?? LIMITS[name] ?? '',
    }
    const { additionalProperties: named } = field
    const items = field.items?.properties === undefined ? [] : rowsOf(field.items, `${path}[].`)
    return [
      row,
      ...rowsOf(field, `${path}.`),
      ...items,
      ...(typeof named === 'object' ? rowsOf(named, `${path}.*.`) : []),
      ...shapesOf(field).flatMap((shape) => rowsOfShape(shape, path)),
    ]
  })
}

interface Shape {
  name: string
  schema: FieldSchema
}

/** Shapes told apart by a field that has one value in each. */
function shapesOf({ oneOf = [] }: FieldSchema): Shape[] {
  return oneOf.flatMap((schema) => {
    const by = Object.entries(schema.properties ?? {}).find(([, { const: value }]) => value !== undefined)
    if (by === undefined) return []
    const [tells, { const: value }] = by
    const { [tells]: _, ...properties } = schema.properties ?? {}
    return [{ name: String(value), schema: { ...schema, properties } }]
  })
}

function rowsOfShape({ name, schema }: Shape, path: string): FieldRow[] {
  return rowsOf(schema, `${path}(${name}).`)
}

/** What limits of a described interval are, where nothing more is said of them. */
const LIMITS: Readonly<Record<string, string>> = {
  lower: 'lower limit',
  upper: 'upper limit',
  from: 'first of it',
  to: 'last of it',
}

function kindOf(field: FieldSchema): string {
  const fixed = (field.anyOf ?? []).map(({ const: value }) => value)
  if (fixed.length > 0 && fixed.every((value) => value !== undefined))
    return fixed.map((value) => JSON.stringify(value)).join(' or ')
  if (field.enum !== undefined) return field.enum.map((value) => JSON.stringify(value)).join(' or ')
  const shapes = shapesOf(field)
  if (shapes.length > 0) return `object of kind ${shapes.map(({ name }) => name).join(', ')}`
  if (field.type === 'array') return 'list'
  if (field.type === 'integer') return 'whole number'
  return field.type === 'string' ? 'text' : (field.type ?? 'value')
}

function needOf(field: FieldSchema, required: boolean): string {
  if (field.default !== undefined) return `default ${JSON.stringify(field.default)}`
  return required ? '' : 'optional'
}
