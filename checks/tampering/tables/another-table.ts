import { strToU8 } from 'fflate'
import { refiled } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'a table nobody asked for is put in',
  layer: 'tables',
  names: 'tables/rooms.csv',
  tamper: () =>
    refiled((files) => {
      files['tables/rooms.csv'] = strToU8('room\r\n')
    }),
}
