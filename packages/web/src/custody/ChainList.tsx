import type { ChainLine } from '@rillmark/casebook/custody/chain-lines.ts'
import { chainTemperature } from '@rillmark/casebook/custody/chain-temperature.ts'
import { wallClock } from '@rillmark/casebook/units/local-time.ts'
import type { ReactNode } from 'react'
import { Tag, type TagProps } from '../kit/Tag.tsx'
import { usePreferences } from '../store/preferences.tsx'
import { PictureByHash } from '../entry/PictureByHash.tsx'

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
  const { at, offset, what, from, to, sealIntact, signed, picture, notes } = line
  const temperature = chainTemperature(line, units)
  const people = [from, to].flatMap((one) => (one === undefined ? [] : [`${one.name}, ${one.role}`])).join(' → ')
  return (
    <li>
      <time dateTime={at} className="num quiet">
        {wallClock({ instant: at, offset })}
      </time>
      <div>
        <span>{what}</span>
        {temperature !== undefined && <span> at {temperature}</span>}
        {people !== '' && <span className="chain-people">{people}</span>}
        {sealIntact !== undefined && (
          <Tag shape={sealIntact ? 'check' : 'cross'} kind={sealIntact ? 'plain' : 'bad'}>
            {sealIntact ? 'seal whole' : 'seal not whole'}
          </Tag>
        )}
        {signed !== undefined && <Tag {...signedTag(signed)}>{signed}</Tag>}
        {picture !== undefined && (
          <PictureByHash className="chain-picture" sha256={picture} shows={`${signed}: ${to?.name ?? ''}`} />
        )}
        {notes !== undefined && <span className="faint">{notes}</span>}
      </div>
    </li>
  )
}

/** A hand-over with one half only stands out; none with a signature is no fault. */
function signedTag(signed: NonNullable<ChainLine['signed']>): Pick<TagProps, 'shape' | 'kind'> {
  if (signed.startsWith('by half')) return { shape: 'half', kind: 'warn' }
  return signed === 'no signature' ? { shape: 'dash', kind: 'faint' } : { shape: 'check', kind: 'plain' }
}
