import { expect, type Page } from '@playwright/test'
import type { Link } from '@rillmark/casebook/chain/link.ts'
import type { EntryOf } from '@rillmark/casebook/entry/entry.ts'
import type { Kind } from '@rillmark/casebook/entry/kinds.ts'
import { untilSynced } from './person.ts'

const PAGE_LINKS = 500

/** The id of the investigation that is open. */
export function investigationOf(page: Page): string {
  return decodeURIComponent(new URL(page.url()).pathname.split('/')[2] ?? '')
}

/** The chain as the server holds it, asked for once this device has nothing left to send. */
export async function linksOnServer(page: Page): Promise<readonly Link[]> {
  await untilSynced(page)
  const links: Link[] = []
  for (;;) {
    const answer = await page.request.get(`/api/investigations/${investigationOf(page)}/entries`, {
      params: { after: links.length, limit: PAGE_LINKS },
    })
    expect(answer.ok()).toBe(true)
    const more = ((await answer.json()) as { links: Link[] }).links
    links.push(...more)
    if (more.length < PAGE_LINKS) return links
  }
}

/** The entries of one kind, as the server holds them. */
export async function entriesOf<K extends Kind>(page: Page, kind: K): Promise<readonly EntryOf<K>[]> {
  return (await linksOnServer(page)).map(({ entry }) => entry).filter((entry) => isOf(entry, kind))
}

function isOf<K extends Kind>(entry: Link['entry'], kind: K): entry is Extract<Link['entry'], EntryOf<K>> {
  return entry.kind === kind
}
