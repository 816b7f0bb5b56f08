import { fileURLToPath } from 'node:url'
import { NodeCompiler } from '@myriaddreamin/typst-ts-node-compiler'

const TEMPLATES = fileURLToPath(new URL('../../typst', import.meta.url))
const FONTS = fileURLToPath(new URL('../../fonts', import.meta.url))

/** Compilations a memoised result may go unused before it is let go. */
const CACHE_AGE = 10

export interface TypstDocument {
  /** file name in `packages/exchange/typst/`, e.g. `labels.typ` */
  readonly template: string
  /** what the template shows, as JSON; reaches it as data only and is never read as markup */
  readonly data: unknown
  /** the UTC instant the document speaks of, usually that of the last entry shown: it becomes the PDF's date */
  readonly asOf: string
  /** the standard the PDF claims; default the archival, tagged PDF/A-2a */
  readonly standard?: 'a-2a' | 'a-2u' | 'ua-1' | '1.7' | undefined
}

let shared: NodeCompiler | undefined

/**
 * The PDF of a template filled with data. The same document gives the same bytes: no clock is read and only the
 * bundled fonts are named.
 *
 * @throws {RangeError} when the template's name is not a plain file name, or asOf no instant
 * @throws {Error} when the template cannot be set, with the compiler's messages
 */
export function compileTypst(document: TypstDocument): Uint8Array {
  const { template, data, asOf, standard = 'a-2a' } = document
  if (!/^[a-z][a-z0-9-]*\.typ$/.test(template)) {
    throw new RangeError(`Cannot set a document because a template is a plain file name: got ${template}`)
  }
  if (!/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d/.test(asOf)) {
    throw new RangeError(`Cannot set a document because its moment is a UTC instant: got ${asOf}`)
  }
  shared ??= NodeCompiler.create({ workspace: TEMPLATES, fontArgs: [{ fontPaths: [FONTS] }] })
  const compiler = shared
  const compiled = compiler.compile({
    mainFilePath: `${TEMPLATES}/${template}`,
    inputs: { data: JSON.stringify(data), asOf },
    resetRead: true,
  })
  const pages = compiled.result
  if (pages === null) {
    const error = compiled.takeDiagnostics()
    const said = error === null ? 'no diagnostics' : JSON.stringify(compiler.fetchDiagnostics(error))
    throw new Error(`Cannot set ${template}: ${said}`)
  }
  const pdf = compiler.pdf(pages, { pdfStandard: standard })
  compiler.evictCache(CACHE_AGE)
  return new Uint8Array(pdf)
}
