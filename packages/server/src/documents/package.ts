import { statedIssue } from '@rillmark/science/catalogue/issue.ts'
import * as z from 'zod'
import { documentKind } from './document-kind.ts'
import { gatherPackage } from './gather-package.ts'

export const packageDocument = documentKind({
  title: 'Open package: the whole record with pictures, reports, keys, tables and a verifier',
  contentType: 'application/zip',
  fileName: ({ investigation }) => `${investigation}.zip`,
  query: z.strictObject({ pictures: z.literal('no').optional() }),
  heavy: true,
  make: async ({ links, attachment, query }) => {
    if (links.length === 0)
      return { issues: [statedIssue('', { expected: 'an investigation with entries', received: 'none of this id' })] }
    const gathered = await gatherPackage(links, { attachment, withoutPictures: query.pictures === 'no' })
    return gathered.ok ? gathered.bytes : { issues: gathered.issues }
  },
})
