import type { PackageWay } from '../package-way.ts'
import { forgedArchive, utf8 } from '../zip-bytes.ts'

export const way: PackageWay = {
  title: 'a program is put before the first file',
  layer: 'archive',
  names: 'before it',
  tamper: () =>
    forgedArchive((archive) => {
      const [first] = archive.members
      if (first !== undefined) first.before = utf8('#!/bin/sh\nexit\n')
    }),
}
