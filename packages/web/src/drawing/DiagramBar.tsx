import type { Layout } from '@rillmark/casebook/drawing/places.ts'
import type { ReactNode } from 'react'
import { Button } from '../kit/Button.tsx'
import type { Detail } from './diagram-model.ts'

export interface DiagramBarProps {
  readonly detail: Detail
  readonly onDetail: (detail: Detail) => void
  readonly layout: Layout
  readonly by: (factor: number) => void
  readonly fit: () => void
}

const STEP = 1.35

/** How close, and how much is drawn. */
export function DiagramBar({ detail, onDetail, layout, by, fit }: DiagramBarProps): ReactNode {
  const counted = layout.groups.length > 0
  const opened = detail.detail === 'all' || detail.expanded.length > 0
  return (
    <div className="diagram-bar">
      {counted && (
        <Button kind="text" onPress={() => onDetail({ detail: 'all', expanded: [] })}>
          Draw every outlet
        </Button>
      )}
      {opened && (
        <Button kind="text" onPress={() => onDetail({ detail: 'auto', expanded: [] })}>
          Gather outlets again
        </Button>
      )}
      <span className="diagram-bar-zoom">
        <Button kind="text" onPress={() => by(STEP)}>
          Closer
        </Button>
        <Button kind="text" onPress={() => by(1 / STEP)}>
          Farther
        </Button>
        <Button kind="text" onPress={fit}>
          Whole drawing
        </Button>
      </span>
    </div>
  )
}
