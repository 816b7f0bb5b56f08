import { SAMPLE_KIND_WORDS } from '@rillmark/casebook/entry/fields.ts'
import type { Stop } from '@rillmark/casebook/plan/plan-file.ts'
import type { Procedure, ProcedureStep, RequiredReading } from '@rillmark/casebook/procedures/procedure.ts'
import { stepsFor } from '@rillmark/casebook/procedures/procedures.ts'
import { type DisplayUnits, METRIC_UNITS } from '@rillmark/casebook/units/display-units.ts'
import { figureText } from '@rillmark/casebook/units/figure.ts'
import { compileTypst } from '../typst/compile.ts'
import { placeWords, type RoundPapers, teamName } from './round-documents.ts'

export interface RunSheetsAsked {
  readonly procedures: readonly Procedure[]
  /** only this team, counted from 1 */
  readonly team?: number | undefined
  /** how the residual is measured here: free or total chlorine */
  readonly residual: string
  /** the units of whoever writes into the blanks; those of the record unless told */
  readonly units?: DisplayUnits | undefined
}

/** One sheet a team: its stops in order with boxes for steps and blanks for readings, then each procedure once with its cautions. */
export function runSheetsPdf(papers: RoundPapers, asked: RunSheetsAsked): Uint8Array {
  const numbered = papers.plan.stops.map((stop, at) => ({ stop, number: at + 1, team: stop.team ?? 1 }))
  const numbers = [...new Set(numbered.map(({ team }) => team))].filter(
    (team) => asked.team === undefined || asked.team === team,
  )
  const sheets = numbers.map((team) => {
    const own = numbered.filter((one) => one.team === team)
    const minutes = own.reduce((sum, { stop }) => sum + stop.minutes, 0)
    return {
      team: teamName(papers, team),
      hours: (minutes / 60).toFixed(1),
      stops: own.map(({ stop, number }) => stopData({ stop, number }, { ...asked, floors: papers.floors })),
      procedures: procedureData(
        own.map(({ stop }) => stop),
        asked,
      ),
    }
  })
  const { title, round, paper, asOf, scheduledOn } = papers
  return compileTypst({ template: 'run-sheets.typ', data: { title, round, paper, scheduledOn, sheets }, asOf })
}

/** A stop's procedures, each with the sample kinds taken by it and the steps that serve them. */
function walked(
  stop: Stop,
  procedures: readonly Procedure[],
): { procedure: Procedure; steps: readonly ProcedureStep[] }[] {
  return [...new Set(stop.samples.map(({ procedure }) => procedure))].flatMap((id) => {
    const procedure = procedures.find((one) => one.id === id)
    if (procedure === undefined) return []
    const kinds = stop.samples.filter((sample) => sample.procedure === id).map(({ sampleKind }) => sampleKind)
    return [{ procedure, steps: stepsFor(procedure, kinds) }]
  })
}

function stopData(
  { stop, number }: { stop: Stop; number: number },
  asked: RunSheetsAsked & Pick<RoundPapers, 'floors'>,
): object {
  const parts = walked(stop, asked.procedures)
  const readings = [...new Set(parts.flatMap(({ steps }) => steps.flatMap((step) => step.readings)))]
  return {
    number,
    title: stop.title,
    place: placeWords(stop, asked.floors),
    why: stop.reasons.map(({ text }) => text).join(' '),
    minutes: Math.round(stop.minutes),
    samples: stop.samples.flatMap(({ label, sampleKind }) =>
      label === undefined ? [] : [{ label, kind: SAMPLE_KIND_WORDS[sampleKind] }],
    ),
    parts: parts.map(({ procedure, steps }) => ({
      title: procedure.title,
      steps: steps.filter(({ kind }) => kind !== 'caution').map(({ title }) => title),
    })),
    readings: readings.map((reading) => blanksFor(reading, asked)),
  }
}

function blanksFor(
  reading: RequiredReading,
  { residual, units = METRIC_UNITS }: Pick<RunSheetsAsked, 'residual' | 'units'>,
): { name: string; blanks: string[] } {
  switch (reading) {
    case 'temperature-curve-hot':
      return { name: `Hot ${units.temperature}`, blanks: ['10 s', '30 s', '60 s', 'steady', 'after s'] }
    case 'temperature-curve-cold':
      return { name: `Cold ${units.temperature}`, blanks: ['10 s', '60 s', '120 s', 'steady', 'after s'] }
    case 'ph':
      return { name: 'pH', blanks: [''] }
    case 'residual':
      return { name: residual, blanks: ['mg/L'] }
  }
}

/** Every procedure of the sheet once, in full, each caution once. */
function procedureData(stops: readonly Stop[], asked: RunSheetsAsked): object[] {
  const used = new Map<string, Procedure>()
  for (const stop of stops)
    for (const { procedure } of walked(stop, asked.procedures)) used.set(procedure.id, procedure)
  const said = new Set<string>()
  const once = (text: string | undefined): string[] => {
    if (text === undefined || said.has(text)) return []
    said.add(text)
    return [text]
  }
  return [...used.values()].map(({ title, version, steps }) => ({
    title,
    version,
    cautions: steps.flatMap(({ kind, instruction, caution }) => [
      ...once(kind === 'caution' ? instruction : undefined),
      ...once(caution?.text),
    ]),
    steps: steps
      .filter(({ kind }) => kind !== 'caution')
      .map((step) => ({ title: step.title, instruction: step.instruction, figure: stepFigure(step) })),
  }))
}

const stepFigure = ({ volume, timer, dose }: ProcedureStep): string =>
  [volume, dose, timer].flatMap((figure) => (figure === undefined ? [] : [figureText(figure)])).join(', ')
