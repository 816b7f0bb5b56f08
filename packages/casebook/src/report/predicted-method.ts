import { sourcesOf } from '@rillmark/science/catalogue/sources.ts'
import type { ReportContext } from './context.ts'
import type { Block } from './model.ts'
import { heading } from './words.ts'

/** How predicted conditions were worked out; nothing where none stand in the record. */
export function predictedMethod(context: ReportContext): Block[] {
  const { state, cite, numbersOf } = context
  const { predictions } = state.building
  if (predictions.length === 0) return []
  const citing = (...ids: string[]): number[] =>
    sourcesOf(...ids).map(({ citation, known }) => cite({ source: citation, known }))
  const entries = numbersOf(...predictions)
  return [
    heading('Predicted conditions'),
    {
      block: 'list',
      items: [
        {
          text: 'Water moves along the described pipes as parcels, drawn by a day of uses that is repeated until the water no longer changes from one day to the next. Where pipes meet it mixes completely.',
          entries,
        },
        {
          text: 'Moving and standing water lose heat to the air through wall and insulation, or take it up where the air is warmer.',
          cites: citing('en-iso-12241', 'plug-flow-heat-balance', 'flow-weighted-mean'),
        },
        {
          text: 'The residual decays in the water and at the wall, no faster at the wall than it gets there, and faster in warmer water.',
          cites: citing('epanet-2-2', 'koechling-1998'),
        },
        {
          text: 'The growth index follows the temperatures at which Legionella multiplied in the laboratory, the residual, and what comes from upstream. Its figures are chosen, not fitted to any building.',
          cites: citing('rosso-1993', 'kusnetsov-1996', 'schulze-roebbecke-1987'),
        },
        {
          text: 'It is a screening model: it ranks places to look at. It is no measurement, and no clearance.',
        },
      ],
    },
  ]
}
