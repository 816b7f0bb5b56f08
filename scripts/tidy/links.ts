import { posix } from 'node:path'
import type { Finding } from './finding.ts'
import type { SourceText } from './syntax.ts'

const LINK = /\]\(([^()\s]+)\)/g

/** Links of the project's pages that lead to no file of the project; addresses elsewhere are not followed. */
export function deadLinks(pages: readonly SourceText[], paths: readonly string[]): Finding[] {
  const known = new Set(paths.flatMap(withFolders))
  return pages.flatMap((page) =>
    page.text.split('\n').flatMap((line, index) =>
      [...line.matchAll(LINK)].flatMap(([, link = '']) => {
        const target = link.replace(/#.*$/, '')
        if (target === '' || /^[a-z]+:/.test(target)) return []
        const path = posix.join(posix.dirname(page.path), target).replace(/\/$/, '')
        if (known.has(path)) return []
        const mend = 'correct the link, or add the file'
        return [{ file: page.path, line: index + 1, rule: 'link', found: `no file ${path}`, mend }]
      }),
    ),
  )
}

function withFolders(path: string): string[] {
  const parts = path.split('/')
  return parts.map((_, index) => parts.slice(0, index + 1).join('/'))
}
