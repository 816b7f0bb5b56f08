import { PICTURE } from '@rillmark/exchange/verify/verify.fixture.ts'
import type { PackageWay } from '../package-way.ts'
import { forgedArchive } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'one byte of a picture that is not packed is altered',
  layer: 'archive',
  names: 'damaged',
  tamper: () =>
    forgedArchive((archive) => {
      const picture = archive.members.find(({ data }) => data.length === PICTURE.length)
      if (picture !== undefined) picture.data = picture.data.with(9, 7)
    }),
}
