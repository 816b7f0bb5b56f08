import { rejson } from '../contents.ts'
import { type PackageWay, head } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a manifest lists a file that is not there',
  layer: 'files',
  names: 'tables/rooms.csv',
  tamper: () =>
    rejson('manifest.json', (manifest) => {
      manifest['files'].push({ path: 'tables/rooms.csv', bytes: 1, sha256: head.hash })
    }),
}
