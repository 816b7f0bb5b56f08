import { statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { attachmentsIn } from '@rillmark/exchange/package/attachments-in.ts'
import { writePackage } from '@rillmark/exchange/package/write-package.ts'
import { documentKind } from './document-kind.ts'

export const packageDocument = documentKind({
  title: 'Open package: the whole record with attachments and tables',
  contentType: 'application/zip',
  fileName: ({ investigation }) => `${investigation}.zip`,
  heavy: true,
  make: async ({ links, attachment }) => {
    if (links.length === 0)
      return { issues: [statedIssue('', { expected: 'an investigation with entries', received: 'none of this id' })] }
    const attachments = new Map<string, Uint8Array>()
    for (const sha256 of attachmentsIn(links.map(({ entry }) => entry))) {
      const bytes = await attachment(sha256)
      if (bytes !== undefined) attachments.set(sha256, bytes)
    }
    return writePackage(links, { attachments })
  },
})
