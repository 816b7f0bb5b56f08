import { statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { documentKind } from './document-kind.ts'
import { gatherPackage } from './gather-package.ts'

export const packageDocument = documentKind({
  title: 'Open package: the whole record with pictures, reports, keys, tables and a verifier',
  contentType: 'application/zip',
  fileName: ({ investigation }) => `${investigation}.zip`,
  heavy: true,
  make: async ({ links, attachment }) => {
    if (links.length === 0)
      return { issues: [statedIssue('', { expected: 'an investigation with entries', received: 'none of this id' })] }
    return (await gatherPackage(links, attachment)).bytes
  },
})
