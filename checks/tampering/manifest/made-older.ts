import { strToU8 } from 'fflate'
import { refiled, relist, text } from '../contents.ts'
import type { PackageWay } from '../package-way.ts'

export const way: PackageWay = {
  title: 'altered tables are passed off as those of an older package',
  layer: 'manifest',
  names: 'An older package',
  needs: 'caution',
  tamper: () =>
    refiled(
      (files) => {
        files['tables/cases.csv'] = strToU8(text(files, 'tables/cases.csv').replace('probable', 'not a case'))
        relist(files)
        files['manifest.json'] = strToU8(
          text(files, 'manifest.json')
            .replace(/,\n {2}"tables": "[^"]+"/, '')
            .replace(/"tables": "[^"]+",\n {2}/, ''),
        )
      },
      { agree: false },
    ),
}
