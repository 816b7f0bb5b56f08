import { build } from 'vite'

/** A script and all it imports as one plain script. @throws TypeError when nothing comes out */
export async function bundledScript({
  entry,
  name,
}: {
  readonly entry: string
  readonly name: string
}): Promise<string> {
  const output = await build({
    configFile: false,
    root: import.meta.dirname,
    logLevel: 'warn',
    build: { write: false, target: 'es2022', lib: { entry, formats: ['iife'], name } },
  })
  const [first] = Array.isArray(output) ? output : [output]
  if (first === undefined || !('output' in first)) throw new TypeError(`Cannot write ${name}: nothing came out`)
  return first.output[0].code
}
