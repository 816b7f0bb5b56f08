import { createHash } from 'node:crypto'
import type { Link } from '@rillmark/casebook/chain/link.ts'
import { verifyChain } from '@rillmark/casebook/chain/verify.ts'
import type { Shown } from './capture.ts'
import type { Requests } from './requests.ts'

/** What of the shown the server has not, has twice or has damaged, in words. */
export async function brokenOnServer(
  requests: Requests,
  { investigation, shown: { notes, photos } }: { investigation: string; shown: Shown },
): Promise<string[]> {
  const links = (await requests.pull(investigation, 0)).links
  const verdict = verifyChain(links, { investigation })
  const faults = verdict.sound ? [] : [`${investigation} ${verdict.sequence}: ${verdict.reason}`]
  for (const text of [...notes, ...photos.map(({ shows }) => shows)])
    if (links.filter((link) => says(link, text)).length !== 1) faults.push(`${text} is not on the server once`)
  for (const { sha256, shows } of photos) {
    const content = await requests.attachment(sha256)
    if (createHash('sha256').update(content).digest('hex') !== sha256)
      faults.push(`photo ${shows} is damaged on the server`)
  }
  return faults
}

function says({ entry }: Link, text: string): boolean {
  if (entry.kind === 'photo.taken') return entry.body.shows === text
  return entry.kind === 'note.written' && entry.body.text.split(': ').at(-1) === text
}
