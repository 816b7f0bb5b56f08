import type { ReactNode } from 'react'
import { Mark, type MarkShape } from './Mark.tsx'

export interface LegendItem {
  readonly shape: MarkShape
  readonly label: string
  readonly kind?: 'plain' | 'accent' | 'warn' | 'bad' | 'faint' | undefined
}

/** What the marks of a drawing or chart mean. */
export function Legend({
  items,
  aside,
}: {
  readonly items: readonly LegendItem[]
  readonly aside?: ReactNode
}): ReactNode {
  return (
    <div className="legend">
      <ul>
        {items.map((item) => (
          <li key={item.label} className={`tag tag-${item.kind ?? 'plain'}`}>
            <Mark shape={item.shape} />
            <span>{item.label}</span>
          </li>
        ))}
      </ul>
      {aside !== undefined && <span className="legend-aside">{aside}</span>}
    </div>
  )
}
