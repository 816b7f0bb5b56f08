export type Namespace = Readonly<Record<string, unknown>>

/** Runs what a file of the app holds, with the ways to what it imports. */
export type Body = (
  imported: (name: string) => Namespace,
  give: (name: string, read: () => unknown) => void,
  later: (name: string) => Promise<Namespace>,
  about: { readonly url: string },
) => void

/** Which parts the app has, what each imports outright, by places in the list, and in which file it is. */
export interface ScriptTable {
  readonly parts: readonly string[]
  readonly imports: readonly (readonly number[])[]
  readonly files: readonly string[]
}

export interface ScriptPlace {
  /** Puts a file into the page; settles when it has run or could not be fetched. */
  readonly add: (file: string) => Promise<void>
  readonly addressOf: (name: string) => string
}

export interface ScriptLoader {
  /** What a file does for each of its parts when it has arrived. */
  readonly define: (name: string, body: Body) => void
  /** The files a part and all it imports are in, as far as they have not arrived. */
  readonly filesOf: (name: string) => ReadonlySet<string>
  /** Fetches a part with all it imports and does not run it. */
  readonly fetchSoon: (name: string) => void
  /** Fetches a part with all it imports, and runs it: what `import()` is among modules. */
  readonly later: (name: string) => Promise<Namespace>
}

/**
 * The app as plain scripts. Browsers keep the compiled code of plain scripts that come from a service worker, and compile modules from
 * there anew at each opening. So the build turns each module file into a part that says what it is (`define`), and puts parts that are
 * wanted together into one file. They run in the order of their imports, each once and not before it is needed.
 */
export function scriptLoader({ parts, imports, files }: ScriptTable, place: ScriptPlace): ScriptLoader {
  const bodies = new Map<string, Body>()
  const namespaces = new Map<string, Namespace>()
  const coming = new Map<string, Promise<void>>()
  const placeOf = new Map(parts.map((name, at) => [name, at]))

  /** A part and all it imports outright. */
  const reached = (name: string): Set<string> => {
    const all = new Set([name])
    for (const each of all)
      for (const at of imports[placeOf.get(each) ?? -1] ?? []) {
        const imported = parts[at]
        if (imported !== undefined) all.add(imported)
      }
    return all
  }
  const filesOf = (name: string): Set<string> => {
    const missing = [...reached(name)].filter((each) => !bodies.has(each))
    return new Set(missing.map((each) => files[placeOf.get(each) ?? -1] ?? each))
  }

  const fetchOne = (file: string): Promise<void> => {
    const known = coming.get(file)
    if (known !== undefined) return known
    const fetching = place.add(file).catch((error: unknown) => {
      // asked for again it is fetched again: the network may be back
      coming.delete(file)
      throw error
    })
    coming.set(file, fetching)
    return fetching
  }

  const run = (name: string): Namespace => {
    const known = namespaces.get(name)
    if (known !== undefined) return known
    const body = bodies.get(name)
    if (body === undefined) throw new TypeError(`Cannot run ${name} because it has not arrived`)
    const namespace = {}
    namespaces.set(name, namespace)
    const give = (given: string, read: () => unknown): void => {
      Object.defineProperty(namespace, given, { enumerable: true, get: read })
    }
    body(run, give, later, { url: place.addressOf(name) })
    return namespace
  }

  const later = async (name: string): Promise<Namespace> => {
    await Promise.all([...filesOf(name)].map(fetchOne))
    return run(name)
  }

  return {
    define: (name, body) => void bodies.set(name, body),
    filesOf,
    fetchSoon: (name) => {
      for (const file of filesOf(name)) void fetchOne(file).catch(() => undefined)
    },
    later,
  }
}
