import type { Calibration, Finding } from '@rillmark/casebook/calibration/calibration.ts'
import {
  fittedWords,
  fitVerdict,
  rangedWords,
  readingPlace,
  readingUnit,
} from '@rillmark/casebook/calibration/fit-words.ts'
import type { WaterSystem } from '@rillmark/casebook/building/water-system.ts'
import type { DisplayUnits } from '@rillmark/casebook/units/display-units.ts'
import { alignedLines, sectionLines } from './table-lines.ts'

/** A fit to readings as people read it in a terminal. */
export function fitTable(system: WaterSystem, { fit, units }: { fit: Calibration; units: DisplayUnits }): string {
  const percent = Math.round(fit.level * 100)
  const lines = [
    `${system.name}: simulation fitted to ${fit.readings.length} readings (screening model, ${fit.runs} runs)`,
    fitVerdict(fit),
    ...(fit.settled ? [] : ['The fit had not settled when its runs were used up: take its ranges with care.']),
    ...sectionLines(
      'Not as described',
      fit.findings.flatMap((finding) => findingLines(finding, { fit, units })),
    ),
    ...sectionLines(
      fit.findings.length > 0 ? 'Tried for what is left' : 'Tried, without one that convinces (above 6)',
      fit.tried.slice(0, MOST_TRIED).map(({ words, score }) => `${score.toFixed(1).padStart(6)}  ${words}`),
    ),
    ...sectionLines(
      `Inputs, with ${percent} % ranges`,
      alignedLines([
        ['Input', 'Believed before', 'After the readings', 'Width left'],
        ...fit.inputs.map((input) => [
          `${input.words}${input.strained ? ' (far from likely)' : ''}`,
          rangedWords(input.before, { unit: input.unit, units }),
          rangedWords(input.after, { unit: input.unit, units }),
          `${Math.round(input.sdRatio * 100)} %`,
        ]),
      ]),
    ),
    ...sectionLines(
      'Readings; off is measured less fitted, in standard deviations',
      alignedLines([
        ['Reading', 'Measured', 'As described', 'Fitted', 'Off'],
        ...fit.readings.map(({ reading, before, after, standardised, unexplained }) => {
          const shown = (value: number): string => fittedWords(value, { unit: readingUnit(reading), units })
          const limit = reading.beyond === undefined ? '' : `${reading.beyond} `
          const off = `${standardised
            .toFixed(1)
            .replace(/^-0\.0$/, '0.0')
            .replace('-', '−')}${unexplained ? ' not explained' : ''}`
          return [readingPlace(system, reading), `${limit}${shown(reading.value)}`, shown(before), shown(after), off]
        }),
      ]),
    ),
    ...sectionLines(
      'Left out',
      fit.leftOut.map(({ id, why }) => `reading ${id}: ${why}`),
    ),
  ]
  return `${lines.join('\n')}\n`
}

const MOST_TRIED = 5

function findingLines(finding: Finding, { fit, units }: { fit: Calibration; units: DisplayUnits }): string[] {
  const { words, size, score, explains, orElse } = finding
  const known = new Set(fit.readings.map(({ reading }) => reading.id))
  const count = explains.filter((id) => known.has(id)).length
  const gain = `explains ${count} of the readings that were not, score ${score.toFixed(1)} (above 6 is strong)`
  return [
    words,
    ...(size === undefined ? [] : [`  ${size.words}: ${rangedWords(size, { unit: size.unit, units })}`]),
    `  ${gain}`,
    ...orElse.map((other) => `  or about as well: ${other.words}`),
  ]
}
