import { showTemperature } from '@rillmark/casebook/units/display.ts'
import type { ChainLine } from '@rillmark/casebook/custody/chain-lines.ts'
import { wallClock } from '@rillmark/casebook/units/local-time.ts'
import type { ReactNode } from 'react'
import { Tag } from '../kit/Tag.tsx'
import { usePreferences } from '../store/preferences.tsx'

/** The chain of custody, in order of what happened. */
export function ChainList({ chain }: { readonly chain: readonly ChainLine[] }): ReactNode {
  return (
    <ol className="chain">
      {chain.map((line) => (
        <ChainItem key={line.entry} line={line} />
      ))}
    </ol>
  )
}

function ChainItem({ line }: { readonly line: ChainLine }): ReactNode {
  const { units } = usePreferences()
  const { at, offset, what, from, to, sealIntact, temperatureC, notes } = line
  const people = [from, to].flatMap((one) => (one === undefined ? [] : [`${one.name}, ${one.role}`])).join(' → ')
  return (
    <li>
      <time dateTime={at} className="num quiet">
        {wallClock({ instant: at, offset })}
      </time>
      <div>
        <span>{what}</span>
        {temperatureC !== undefined && <span> at {showTemperature(temperatureC, units).words}</span>}
        {people !== '' && <span className="chain-people">{people}</span>}
        {sealIntact !== undefined && (
          <Tag shape={sealIntact ? 'check' : 'cross'} kind={sealIntact ? 'plain' : 'bad'}>
            {sealIntact ? 'seal whole' : 'seal not whole'}
          </Tag>
        )}
        {notes !== undefined && <span className="faint">{notes}</span>}
      </div>
    </li>
  )
}
