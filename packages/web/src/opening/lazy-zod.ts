// Stands in for zod where the app is built. The record has some hundred schemas of several thousand parts; making them takes longer than all
// else at the opening, and hardly any is asked at once. So a schema here remembers how it is made and is made when it is first asked
// anything: what it answers is what zod answers. Tests, the server and the command use zod itself.
import * as zod from 'zod/v4'

/** Whatever of zod makes a schema from others and returns it: called, it is only noted. All else asks the schema that is made. */
const BUILDERS: ReadonlySet<PropertyKey> = new Set(
  [
    'optional nullable nullish default prefault catch array or and readonly brand',
    'transform refine superRefine overwrite check pipe describe',
    'min max length gt gte lt lte int positive negative nonnegative multipleOf',
    'regex trim toLowerCase toUpperCase includes startsWith endsWith nonempty',
    'extend safeExtend pick omit partial required strict loose catchall',
  ].flatMap((names) => names.split(' ')),
)

const MADE = Symbol('the schema that was made')

type Made = object
type Make = (...given: readonly unknown[]) => Made

/** A schema that is made when it is first asked anything but to be part of another. */
function later(make: () => Made): Made {
  let made: Made | undefined
  const real = (): Made => (made ??= make())
  return new Proxy(
    {},
    {
      get: (_, key) => {
        if (key === MADE) return real()
        if (made === undefined && BUILDERS.has(key))
          return (...given: readonly unknown[]) => later(() => (Reflect.get(real(), key) as Make)(...given.map(sound)))
        return Reflect.get(real(), key)
      },
      set: (_, key, value) => Reflect.set(real(), key, value),
      has: (_, key) => Reflect.has(real(), key),
      ownKeys: () => Reflect.ownKeys(real()),
      getPrototypeOf: () => Reflect.getPrototypeOf(real()),
      getOwnPropertyDescriptor: (_, key) => {
        const found = Reflect.getOwnPropertyDescriptor(real(), key)
        return found === undefined ? undefined : { ...found, configurable: true }
      },
    },
  )
}

/** What was given, with the schemas in it made: itself, a list or the fields of a shape. */
function sound(given: unknown): unknown {
  if (typeof given !== 'object' || given === null) return given
  const made: unknown = Reflect.get(given, MADE)
  if (made !== undefined) return made
  if (Array.isArray(given)) return given.map(sound)
  if (Object.getPrototypeOf(given) !== Object.prototype) return given
  return Object.fromEntries(Object.entries(given).map(([key, value]) => [key, sound(value)]))
}

function noted<F>(make: F): F {
  return ((...given: readonly unknown[]) => later(() => (make as unknown as Make)(...given.map(sound)))) as F
}

/** Asked at once. */
function asked<F>(ask: F): F {
  return ((...given: readonly unknown[]) => (ask as unknown as Make)(...given.map(sound))) as F
}

export * from 'zod/v4'
export const number = noted(zod.number)
export const int = noted(zod.int)
export const string = noted(zod.string)
export const boolean = noted(zod.boolean)
export const unknown = noted(zod.unknown)
export const literal = noted(zod.literal)
export const array = noted(zod.array)
export const tuple = noted(zod.tuple)
export const object = noted(zod.object)
export const strictObject = noted(zod.strictObject)
export const looseObject = noted(zod.looseObject)
export const record = noted(zod.record)
export const partialRecord = noted(zod.partialRecord)
export const union = noted(zod.union)
export const discriminatedUnion = noted(zod.discriminatedUnion)
export const preprocess = noted(zod.preprocess)
export const uuid = noted(zod.uuid)
export const iso = { ...zod.iso, date: noted(zod.iso.date), datetime: noted(zod.iso.datetime) }
export const toJSONSchema = asked(zod.toJSONSchema)
const enumOf = noted(zod.enum)
const nothing = noted(zod.null)
export { enumOf as enum, nothing as null }
