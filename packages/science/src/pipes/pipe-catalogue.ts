import copper from '@rillmark/reference/pipes/astm-b88.json' with { type: 'json' }
import metric from '@rillmark/reference/pipes/en-1057.json' with { type: 'json' }
import pex from '@rillmark/reference/pipes/pex-sdr9.json' with { type: 'json' }
import { MM_PER_INCH } from '../units/definitions.ts'

export interface PipeSize {
  standard: string
  size: string
  outsideDiameterMm: number
  wallMm: number
  boreMm: number
}

const MM_PER_UNIT: Record<string, number> = { mm: 1, in: MM_PER_INCH }

/** Every size of every standard in `reference/pipes/`. */
export const pipeSizes: readonly PipeSize[] = [copper, pex, metric].flatMap(({ unit, standards }) => {
  const mm = MM_PER_UNIT[unit]
  if (mm === undefined) throw new RangeError(`Cannot read a pipe table because its unit must be mm or in: got ${unit}`)
  return standards.flatMap(({ id, sizes }) =>
    sizes.map(({ size, outside, wall }) => ({
      standard: id,
      size,
      outsideDiameterMm: outside * mm,
      wallMm: wall * mm,
      boreMm: (outside - 2 * wall) * mm,
    })),
  )
})

/** The standards of the catalogue, in its order. */
export const pipeStandards: readonly string[] = [...new Set(pipeSizes.map(({ standard }) => standard))]

/**
 * The size of a standard with its diameters (mm), or nothing where the catalogue lacks it.
 * Wanted because drawings name pipes by nominal size, and content goes by bore.
 *
 * bore = outside diameter − 2 · wall.
 *
 * Special cases: `1/2 in` and `1/2"` are read as `1/2`, `22 x 1` as `22x1`.
 *
 * @param wanted standard (id) and size (as in the catalogue)
 * @source astm-b88
 * @source pex-sdr9
 * @source en-1057
 * @example
 * findPipeSize({ standard: 'en-1057', size: '22x1' }).boreMm // => 20
 */
export function findPipeSize({ standard, size }: { standard: string; size: string }): PipeSize | undefined {
  const plain = size
    .trim()
    .replace(/\s*(in|"|″|mm)$/i, '')
    .replace(/\s*[x×]\s*/i, 'x')
  return pipeSizes.find((row) => row.standard === standard && row.size === plain)
}
