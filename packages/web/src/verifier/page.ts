import type { Head } from '@rillmark/casebook/chain/link.ts'
import type { GivenFile } from '@rillmark/exchange/verify/verify-files.ts'
import type { VerifyAnswer, VerifyRequest } from './messages.ts'
import { runVerification } from './run.ts'
import { verdictPart } from './verdict-part.ts'

/** Wires the page: files come in by choice or drop, a verdict for each comes out. */
export function startPage(script: string): void {
  const input = part<HTMLInputElement>('files')
  const drop = part('drop')
  let given: readonly File[] = []
  const again = (): void => void verify(given, script)
  input.addEventListener('change', () => {
    given = [...(input.files ?? [])]
    again()
  })
  part('head').addEventListener('change', () => given.length > 0 && again())
  for (const kind of ['dragenter', 'dragover'])
    document.addEventListener(kind, (event) => {
      event.preventDefault()
      drop.classList.add('over')
    })
  document.addEventListener('dragleave', () => drop.classList.remove('over'))
  document.addEventListener('drop', (event) => {
    event.preventDefault()
    drop.classList.remove('over')
    given = [...(event.dataTransfer?.files ?? [])]
    again()
  })
}

/** Which verification is under way: files brought meanwhile count, and what came before them is let go. */
let current = 0
let busy: Worker | undefined

async function verify(files: readonly File[], script: string): Promise<void> {
  const head = readHead(part<HTMLInputElement>('head').value.trim())
  part('head-issue').textContent = head === 'bad' ? 'Expected NUMBER:HASH, such as 42: and 64 hexadecimal digits.' : ''
  if (files.length === 0 || head === 'bad') return
  const mine = (current += 1)
  busy?.terminate()
  busy = undefined
  part('verdicts').replaceChildren()
  const showMine = (answer: VerifyAnswer): void => {
    if (mine === current) show(answer)
  }
  showMine({ doing: 'Reading', done: 0, of: 1 })
  try {
    const read = await Promise.all(files.map(readFile))
    if (mine === current) await run({ files: read, head }, { script, show: showMine })
  } catch (error) {
    showMine({ failed: error instanceof Error ? error.message : String(error) })
  }
}

async function readFile(file: File): Promise<GivenFile> {
  return { name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) }
}

/** In a worker where the browser lets a page make one of itself, else here. */
async function run(
  request: VerifyRequest,
  { script, show: tell }: { script: string; show: (answer: VerifyAnswer) => void },
): Promise<void> {
  const worker = makeWorker(script)
  if (worker === undefined) return runVerification(request, tell)
  busy = worker
  await new Promise<void>((resolve) => {
    worker.addEventListener('message', ({ data }: MessageEvent<VerifyAnswer>) => {
      tell(data)
      if ('doing' in data) return
      worker.terminate()
      resolve()
    })
    worker.addEventListener('error', () => {
      worker.terminate()
      void runVerification(request, tell).then(resolve)
    })
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker has no origin
    worker.postMessage(request)
  })
}

function makeWorker(script: string): Worker | undefined {
  try {
    return new Worker(URL.createObjectURL(new Blob([script], { type: 'text/javascript' })))
  } catch {
    return undefined
  }
}

function show(answer: VerifyAnswer): void {
  const [progress, bar] = [part('progress'), part<HTMLProgressElement>('bar')]
  bar.hidden = !('doing' in answer)
  if ('doing' in answer) {
    const { doing, done, of } = answer
    progress.textContent = of > 1 ? `${doing}: ${done} of ${of}` : `${doing} …`
    if (of > 1) bar.value = done / of
    else bar.removeAttribute('value')
    return
  }
  progress.textContent = 'failed' in answer ? `The verifier itself failed: ${answer.failed}` : ''
  if ('verdicts' in answer) part('verdicts').replaceChildren(...answer.verdicts.map(verdictPart))
}

function readHead(text: string): Head | undefined | 'bad' {
  if (text === '') return undefined
  const [, sequence, hash] = /^(\d{1,9}):([0-9a-f]{64})$/.exec(text.toLowerCase().replaceAll(' ', '')) ?? []
  return sequence === undefined || hash === undefined ? 'bad' : { sequence: Number(sequence), hash }
}

function part<E extends HTMLElement = HTMLElement>(id: string): E {
  const found = document.getElementById(id)
  if (found === null) throw new RangeError(`Cannot start because the page lacks a part: got ${id}`)
  return found as E
}
