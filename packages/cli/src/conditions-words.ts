import { rangedWords } from '@rillmark/casebook/calibration/fit-words.ts'
import type { Explanation } from '@rillmark/casebook/conditions/explanation.ts'
import { inReadersUnits } from '@rillmark/casebook/conditions/in-readers-units.ts'
import type { Effect, Sensitivity } from '@rillmark/casebook/conditions/sensitivity.ts'
import { OUTPUT_WORDS, OUTPUTS } from '@rillmark/casebook/conditions/sensitivity-outputs.ts'
import { capital } from '@rillmark/casebook/units/capital.ts'
import type { DisplayUnits } from '@rillmark/casebook/units/display-units.ts'
import { showReckoned } from '@rillmark/casebook/units/display.ts'
import type { FittedFromFile } from './fitted-file.ts'

/** Why the water of some parts is as it is, a paragraph a side. */
export function whyText(explanations: readonly Explanation[]): string {
  return `${explanations.map(oneText).join('\n\n')}\n`
}

function oneText({ id, name, sides }: Explanation): string {
  const head = name === id ? name : `${name} (${id})`
  if (sides.length === 0) return `${head}\n  Nothing can be said of it.`
  const told = sides.map(({ water, sentences, causes }) =>
    [
      `  ${capital(water === 'stored' ? 'what it holds' : water.replace('-', ' '))}`,
      ...sentences.map(({ text }) => `    ${text}`),
      ...causes.map(({ text }) => `    Because: ${text}`),
    ].join('\n'),
  )
  return [head, ...told].join('\n')
}

/** Which values were taken from a fit, before a table made with them. */
export function asFittedText({ inputs, found }: FittedFromFile['fitted'], units: DisplayUnits): string {
  const lines = inputs.map(
    ({ words, unit, value, range }) => `  ${words}: ${rangedWords({ value, range }, { unit, units })}`,
  )
  const given = found.map((words) => `  Taken as given: ${words}`)
  return `${['As fitted to readings, in place of what is described:', ...lines, ...given, ''].join('\n')}\n`
}

/** How far each guess moves what is predicted, the largest first. */
export function howSureText({ effects, failed }: Sensitivity, units: DisplayUnits): string {
  const told = OUTPUTS.flatMap((output) => {
    const moving = effects[output].filter((one) => isSeen(one, units))
    if (moving.length === 0) return []
    const { words } = OUTPUT_WORDS[output]
    return [capital(words), ...moving.slice(0, MOST_EFFECTS).map((one) => `  ${effectLine(one, units)}`), '']
  })
  const none = failed.map(
    ({ run, reasons }) => `${run.text}, ${run.end} end: ${reasons.map(({ why }) => why).join('; ')}`,
  )
  return [
    'How far each guess moves the prediction, one at a time, from one end of its range to the other',
    '(screening model: what moves most is worth looking at first)',
    '',
    ...told,
    ...(none.length === 0 ? [] : ['Gave nothing', ...none.map((line) => `  ${line}`), '']),
  ].join('\n')
}

const MOST_EFFECTS = 5

const DIGITS = 3

/** True where an end is told otherwise than what was taken. */
const isSeen = (effect: Effect, units: DisplayUnits): boolean =>
  [effect.atLower, effect.atUpper].some(
    (end) =>
      end !== undefined &&
      figureOf(effect, { value: end, units }) !== figureOf(effect, { value: effect.baseline, units }),
  )

const figureOf = ({ output }: Effect, { value, units }: { value: number; units: DisplayUnits }): string =>
  showReckoned(value, { unit: OUTPUT_WORDS[output].unit, units, digits: DIGITS }).words

function effectLine(effect: Effect, units: DisplayUnits): string {
  const { text, baseline, atLower, atUpper } = effect
  const figure = (value: number | undefined): string =>
    value === undefined ? 'as it is' : figureOf(effect, { value, units })
  return `${figure(baseline)}, at its low end ${figure(atLower)}, at its high end ${figure(atUpper)}: ${inReadersUnits(text, units)}`
}
