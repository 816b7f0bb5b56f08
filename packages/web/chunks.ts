/** What the bundler knows of a module, as far as it is needed here. */
interface Known {
  readonly isEntry: boolean
  readonly importers: readonly string[]
}

const CORE = ['/src/shell/InvestigationLayout.tsx', '/src/sync/browser-device.ts']

/**
 * Puts everything the page itself needs into one file, and everything an open investigation needs whatever its screen (the shell around it, the
 * record, its rules, the device) into another. Left to itself the bundler makes some seventy small ones, and opening without a network pays for each.
 *
 * @param moduleInfo what the bundler knows of a module by its id
 */
export function chunkOf(id: string, moduleInfo: (id: string) => Known | null): string | undefined {
  if (CORE.some((end) => id.endsWith(end))) return undefined
  const above = importersOf(id, moduleInfo)
  if ([...above].some((each) => moduleInfo(each)?.isEntry === true))
    return moduleInfo(id)?.isEntry === true ? undefined : 'first'
  return [...above].some((each) => CORE.some((end) => each.endsWith(end))) ? 'record' : undefined
}

/** A module and all that can't run before it has, because they import it outright. */
function importersOf(id: string, moduleInfo: (id: string) => Known | null): Set<string> {
  const found = new Set([id])
  for (const each of found) for (const importer of moduleInfo(each)?.importers ?? []) found.add(importer)
  return found
}
