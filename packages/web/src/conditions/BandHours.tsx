import { hoursByBand } from '@rillmark/casebook/conditions/hours-by-band.ts'
import { temperatureBandWords } from '@rillmark/casebook/findings/temperature-band.ts'
import type { ReactNode } from 'react'
import { Bars } from '../kit/Bars.tsx'
import { Section } from '../kit/Section.tsx'
import { usePreferences } from '../store/preferences.tsx'
import type { WaterLine } from './place-lines.ts'

const HOURS_A_DAY = 24

/** How many hours of the day each water spends in each temperature band. */
export function BandHours({ lines }: { readonly lines: readonly WaterLine[] }): ReactNode {
  const { units } = usePreferences()
  const known = lines.flatMap((line) => {
    const curve = line.curve('temperature')
    return curve === undefined ? [] : [{ words: line.words, bands: hoursByBand(curve) }]
  })
  if (known.length === 0) return null
  return (
    <Section title="Hours of the day by temperature">
      {known.map(({ words, bands }) => (
        <div key={words} className="band-hours">
          <h3>{words}</h3>
          <Bars
            label={`Hours of the day by temperature, ${words}`}
            lines={bands
              .filter(({ hours }) => hours > 0)
              .map(({ band, hours }) => ({
                id: band.id,
                label: temperatureBandWords(band, units),
                fraction: hours / HOURS_A_DAY,
                text: `${hours.toFixed(1)} h`,
              }))}
          />
        </div>
      ))}
    </Section>
  )
}
