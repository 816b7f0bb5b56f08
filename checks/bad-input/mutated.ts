import fc from 'fast-check'

/** What stands in the place of a value: other types, other sizes, and the values that break arithmetic and look-ups. */
const GARBAGE: readonly unknown[] = [
  undefined,
  null,
  true,
  0,
  -1,
  0.5,
  1e15,
  1e308,
  -1e308,
  5e-324,
  2 ** 53 + 2,
  '',
  ' ',
  '0',
  '__proto__',
  'constructor',
  '../../etc',
  '\u0000',
  '\ud800',
  '=1+1',
  '9999-99-99',
  '0000-01-01',
  '275760-09-13T00:00:00.001Z',
  'x'.repeat(5000),
  [],
  [[]],
  {},
  { kind: 'constructor' },
  [null, 1, 'two'],
]

type Path = readonly (string | number)[]

/** The value with one to three of its parts replaced by garbage, taken away or doubled. */
export function mutated(value: unknown): fc.Arbitrary<unknown> {
  const paths = pathsOf(value)
  const change = fc.record({
    path: fc.constantFrom(...paths),
    how: fc.constantFrom('replace', 'replace', 'replace', 'remove', 'double'),
    garbage: fc.constantFrom(...GARBAGE),
  })
  return fc.array(change, { minLength: 1, maxLength: 3 }).map((changes) =>
    changes.reduce<unknown>((before, { path, how, garbage }) => {
      const copy = structuredClone({ root: before })
      apply(copy, { path: ['root', ...path], how, garbage })
      return copy.root
    }, value),
  )
}

function pathsOf(value: unknown, path: Path = []): Path[] {
  if (typeof value !== 'object' || value === null) return [path]
  return [path, ...Object.entries(value).flatMap(([key, each]) => pathsOf(each, [...path, key]))]
}

function apply(root: object, { path, how, garbage }: { path: Path; how: string; garbage: unknown }): void {
  let holder: unknown = root
  for (const key of path.slice(0, -1)) {
    if (typeof holder !== 'object' || holder === null || !Object.hasOwn(holder, key)) return
    holder = Reflect.get(holder, key)
  }
  const key = path.at(-1)
  if (typeof holder !== 'object' || holder === null || key === undefined || !Object.hasOwn(holder, key)) return
  if (how === 'remove') Reflect.deleteProperty(holder, key)
  else if (how === 'double' && Array.isArray(holder)) holder.push(structuredClone(Reflect.get(holder, key)))
  else Reflect.set(holder, key, structuredClone(garbage))
}
