import { strToU8 } from 'fflate'
import { refiled, relist, text } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'altered tables are said to be of another version',
  layer: 'manifest',
  names: 'rillmark/tables@9',
  needs: 'caution',
  tamper: () =>
    refiled(
      (files) => {
        files['tables/cases.csv'] = strToU8(text(files, 'tables/cases.csv').replace('probable', 'confirmed'))
        relist(files)
        files['manifest.json'] = strToU8(text(files, 'manifest.json').replace('rillmark/tables@1', 'rillmark/tables@9'))
      },
      { agree: false },
    ),
}
