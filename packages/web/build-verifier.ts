// Builds dist/verify.html: one file that verifies packages and receipts, with its script inside, named by hash in its own policy.
import { createHash } from 'node:crypto'
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { bundledScript } from './bundled-script.ts'

const source = (name: string): URL => new URL(`src/verifier/${name}`, import.meta.url)
const text = (name: string): string => readFileSync(source(name), 'utf8')
const digest = (content: string): string => `'sha256-${createHash('sha256').update(content).digest('base64')}'`

const script = await bundled()
const style = text('page.css').replace(/\s*\n\s*/g, ' ')
const policy = [
  "default-src 'none'",
  `script-src ${digest(script)}`,
  `style-src ${digest(style)}`,
  'worker-src blob:',
  "base-uri 'none'",
  "form-action 'none'",
].join('; ')

const parts: Readonly<Record<string, string>> = { POLICY: policy, STYLE: style, SCRIPT: script }
const page = text('page.html').replace(/__([A-Z]+)__/g, (_, name: string) => parts[name] ?? '')
mkdirSync(new URL('dist/', import.meta.url), { recursive: true })
writeFileSync(new URL('dist/verify.html', import.meta.url), page)

/** The page's script with all it imports, as one text that holds nothing a page would take for the end of a script. */
async function bundled(): Promise<string> {
  const code = await bundledScript({ entry: source('verifier.ts').pathname, name: 'verifier' })
  return code.replaceAll('</script', String.raw`<\/script`).replaceAll('<!--', String.raw`<\!--`)
}
