import { createHash } from 'node:crypto'
import { globSync, readFileSync } from 'node:fs'
import { minifySync, moduleRunnerTransform, type Plugin, type Rolldown } from 'vite'
import { bundledScript } from './bundled-script.ts'
import type { Written } from './src/opening/start-scripts.ts'

const FOLDER = 'assets/'
const MODULES_OF_PAGE = /<script type="module"[^>]* src="\/([^"]+)"><\/script>/g
const STYLES_OF_PAGE = /<link rel="stylesheet"[^>]* href="\/([^"]+)">/g
const SCREEN = /\/src\/([a-z-]+)\/[A-Za-z]+Screen\.tsx$/
/** Asked for by every screen of an investigation. */
const IN_INVESTIGATION = /\/src\/(?:shell\/InvestigationLayout\.tsx|sync\/browser-device\.ts)$/
/** What several screens share is put into one file, unless it is larger: then it is fetched where it is wanted. */
const LARGEST_SHARED_BYTES = 50_000
/** Of a hash in hexadecimal: long enough that no two builds share it by chance. */
const NAME_LENGTH = 24

type Bundle = Rolldown.OutputBundle
type Chunk = Rolldown.OutputChunk

/** Turns the module files of the app into plain scripts, and gives the page the loader that runs them; src/opening says why. */
export function plainScripts(): Plugin {
  return {
    name: 'rillmark-plain-scripts',
    apply: 'build',
    enforce: 'post',
    generateBundle: {
      order: 'post',
      async handler(_, bundle) {
        const page = bundle['index.html']
        if (page?.type !== 'asset') throw new TypeError('Cannot write the scripts of the page because there is no page')
        const html = String(page.source)
        const app = partsOf(bundle, html)
        const emit = (name: string, source: string): string =>
          this.getFileName(this.emitFile({ type: 'asset', name: `${name}.js`, source }))
        const files = new Map<string, string>()
        for (const [name, chunks] of Map.groupBy(app.chunks, app.fileOf)) {
          const file = emit(name, (await Promise.all(chunks.map(plainScript))).join('\n'))
          for (const { fileName } of chunks) files.set(fileName, file)
        }
        const ofHtml = app.chunks.filter(({ fileName }) => app.named.includes(fileName))
        const [main, ...more] = ofHtml.filter(
          ({ fileName }) => !ofHtml.some(({ imports }) => imports.includes(fileName)),
        )
        if (main === undefined || more.length > 0) throw new TypeError('Cannot tell which script starts the app')
        const loader = emit('scripts', await loaderScript(written(app, { files, main: main.fileName, page: html })))
        // it runs before anything else is there, and adds what starts the app when it is time
        const first = files.get(main.fileName) ?? main.fileName
        const tags = [`<script src="/${loader}" data-then="/${first}"></script>`]
        page.source = html.replaceAll(MODULES_OF_PAGE, () => tags.splice(0).join(''))
        for (const { fileName } of app.chunks) delete bundle[fileName]
      },
    },
  }
}

/** The module files, the ones the page names, and how they go together. */
interface Parts {
  readonly chunks: readonly Chunk[]
  readonly named: readonly string[]
  readonly reached: (chunk: Chunk) => ReadonlySet<Chunk>
  readonly stylesOf: (chunk: Chunk) => string[]
  /** the file a module file goes into, by name */
  readonly fileOf: (chunk: Chunk) => string
}

function partsOf(bundle: Bundle, html: string): Parts {
  const chunks = Object.values(bundle).filter((each) => each.type === 'chunk')
  const byName = new Map(chunks.map((chunk) => [chunk.fileName, chunk]))
  const chunksNamed = (names: readonly string[]): Chunk[] => names.flatMap((name) => byName.get(name) ?? [])
  const named = [...html.matchAll(MODULES_OF_PAGE)].map(([, name = '']) => name)
  const ofPage = new Set([...html.matchAll(STYLES_OF_PAGE)].map(([, name = '']) => name))
  const reached = (chunk: Chunk): Set<Chunk> => {
    const all = new Set([chunk])
    for (const each of all) for (const imported of chunksNamed(each.imports)) all.add(imported)
    return all
  }
  const first = new Set(chunksNamed(named).flatMap((chunk) => [...reached(chunk)]))
  const always = new Set(chunks.filter(isAlways).flatMap((chunk) => [...reached(chunk)]))
  const screens = chunks.filter((chunk) => stepOf(chunk) !== undefined).map(reached)
  const isShared = (chunk: Chunk): boolean =>
    chunk.code.length <= LARGEST_SHARED_BYTES && screens.filter((screen) => screen.has(chunk)).length > 1
  return {
    chunks,
    named,
    reached,
    stylesOf: (chunk) =>
      [...reached(chunk)]
        .flatMap(({ viteMetadata }) => [...(viteMetadata?.importedCss ?? [])])
        .filter((name) => !ofPage.has(name)),
    fileOf: (chunk) => {
      if (first.has(chunk)) return 'first'
      if (always.has(chunk)) return 'record'
      return isShared(chunk) ? 'shared' : chunk.name
    },
  }
}

const isAlways = ({ facadeModuleId }: Chunk): boolean => IN_INVESTIGATION.test(facadeModuleId ?? '')
const stepOf = ({ facadeModuleId }: Chunk): string | undefined => SCREEN.exec(facadeModuleId ?? '')?.[1]
const short = (fileName: string): string => fileName.replace(FOLDER, '')

function written(
  { chunks, stylesOf }: Parts,
  { files, main, page }: { files: ReadonlyMap<string, string>; main: string; page: string },
): Written {
  const needs = (chunk: Chunk): string[] => [chunk.fileName, ...stylesOf(chunk)].map(short)
  const places = new Map(chunks.map(({ fileName }, at) => [fileName, at]))
  const table = {
    parts: chunks.map(({ fileName }) => short(fileName)),
    imports: chunks.map(({ imports }) => imports.flatMap((each) => places.get(each) ?? [])),
    files: chunks.map(({ fileName }) => short(files.get(fileName) ?? fileName)),
  }
  return {
    table,
    // names of files change with what is in them; the page names the styles
    build: nameOf([JSON.stringify(table), page]),
    schemas: schemasName(),
    main: short(main),
    inInvestigation: chunks.filter(isAlways).flatMap(needs),
    screens: Object.fromEntries(
      chunks.flatMap((chunk) => {
        const step = stepOf(chunk)
        return step === undefined ? [] : [[step, needs(chunk)]]
      }),
    ),
  }
}

/** Whatever could change how an entry reads changes this name: the sources of the schemas and zod itself. */
function schemasName(): string {
  const cwd = `${import.meta.dirname}/../..`
  const sources = [
    'packages/{casebook,science}/src/**/*.ts',
    'packages/web/src/opening/lazy-zod.ts',
    'reference/**/*.json',
    'node_modules/zod/package.json',
  ]
  const names = globSync(sources, { cwd }).toSorted()
  return nameOf(names.flatMap((name) => [`${name}\n`, readFileSync(`${cwd}/${name}`)]))
}

function nameOf(contents: readonly (string | Buffer)[]): string {
  const hash = createHash('sha256')
  for (const content of contents) hash.update(content)
  return hash.digest('hex').slice(0, NAME_LENGTH)
}

/** One module file as a part that says what it is. */
async function plainScript({ fileName, code }: Chunk): Promise<string> {
  const transformed = await moduleRunnerTransform(code, null, fileName, code)
  if (transformed === null) throw new TypeError(`Cannot make a plain script of ${fileName}`)
  const body = transformed.code
    .replaceAll(/await __vite_ssr_import__\(("[^"]+")(?:, \{[^\n]*\})?\)/g, (_, name: string) => called('import', name))
    .replaceAll(/\(\) => \{ try \{ return ([^ ]+) \} catch \{\} \}/g, '() => $1')
    .replaceAll(/__vite_ssr_dynamic_import__\((`[^`]+`|"[^"]+"|'[^']+')\)/g, (_, name: string) =>
      called('dynamic_import', name),
    )
  const parameters = ['import', 'exportName', 'dynamic_import', 'import_meta'].map((each) => `__vite_ssr_${each}__`)
  const name = JSON.stringify(short(fileName))
  const script = `rillmarkScripts.define(${name},function(${parameters.join(',')}){"use strict";\n${body}\n});`
  const minified = minifySync(fileName, script, { module: false, compress: false, mangle: true })
  if (minified.errors.length > 0)
    throw new TypeError(`Cannot make a plain script of ${fileName}: ${minified.errors[0]?.message}`)
  return minified.code
}

/** './name.js' as it stands in a module file, asked for by its name alone. */
function called(way: string, quoted: string): string {
  return `__vite_ssr_${way}__(${JSON.stringify(quoted.slice(1, -1).replace(/^\.\//, ''))})`
}

/** The first script of the page, with what it must know of the others. */
async function loaderScript(given: Written): Promise<string> {
  const code = await bundledScript({ entry: `${import.meta.dirname}/src/opening/start-scripts.ts`, name: 'start' })
  return `var rillmarkWritten=${JSON.stringify(given)};\n${code}`
}
