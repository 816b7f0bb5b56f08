import * as z from 'zod'
import { defineCalculation } from '../catalogue/descriptor.ts'
import { field } from '../catalogue/fields.ts'
import { sourcesOf } from '../catalogue/sources.ts'
import { type BoreChoice, boreOf, pipeShape, refuseUnknownBore } from './pipe-fields.ts'

export interface PipeInput extends BoreChoice {
  lengthM: number
}

export interface PipeVolume {
  boreMm: number
  litresPerMetre: number
  volumeL: number
}

/** A tube of 1 mm² section and 1 m length holds a thousandth of a litre. */
const LITRES_PER_MM2_M = 1 / 1000

/**
 * The water a pipe holds (litres), in all and per metre.
 * Wanted to tell what part of a system a first draw came from, and how long a pipe stays full of old water.
 *
 * V = π/4 · d² · L.
 *
 * Special cases: a length of 0 holds 0 L.
 *
 * @param input bore (mm) or standard and size of the catalogue; length (m, at least 0)
 * @throws RangeError when the size isn't in the catalogue
 * @source astm-b88
 * @source en-1057
 * @example
 * pipeVolume({ boreMm: 20, lengthM: 10 }).volumeL // => 3.141592653589793
 */
export function pipeVolume(input: PipeInput): PipeVolume {
  const boreMm = boreOf(input)
  const litresPerMetre = (Math.PI / 4) * boreMm * boreMm * LITRES_PER_MM2_M
  return { boreMm, litresPerMetre, volumeL: litresPerMetre * input.lengthM }
}

export const pipeVolumeCalculation = defineCalculation({
  id: 'pipe-volume',
  title: 'Water held by a pipe',
  purpose: 'How much water a length of pipe holds, from its bore or its standard and size.',
  formula: { text: 'V = π/4 · d² · L', symbols: { V: 'volumeL', d: 'boreMm', L: 'lengthM' } },
  input: z.strictObject(pipeShape()).superRefine(refuseUnknownBore),
  output: z.object({
    boreMm: field(z.number(), { what: 'inside diameter used', unit: 'mm' }),
    litresPerMetre: field(z.number(), { what: 'content of a metre', unit: 'L/m' }),
    volumeL: field(z.number(), { what: 'content of the length', unit: 'L' }),
  }),
  sources: sourcesOf('astm-b88', 'pex-sdr9', 'en-1057'),
  cautions: ['Scale narrows old pipes; published contents of PEX use the mean bore and are 3 to 5 % lower.'],
  example: {
    input: { standard: 'en-1057', size: '22x1', lengthM: 10 },
    output: { boreMm: 20, litresPerMetre: 0.3141592653589793, volumeL: 3.141592653589793 },
  },
  run: pipeVolume,
})
