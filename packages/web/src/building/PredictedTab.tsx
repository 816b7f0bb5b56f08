import { type ReactNode, Suspense } from 'react'
import type { GoTo, PredictedFaceProps } from '../conditions/PredictedFace.tsx'
import { lazyPart, sayMissing } from '../shell/lazy-part.tsx'

/** The simulation comes only to whoever looks at it. */
const PredictedFace = lazyPart(
  async () => ({ default: (await import('../conditions/PredictedFace.tsx')).PredictedFace }),
  sayMissing,
)

export interface PredictedTabProps extends Omit<PredictedFaceProps, 'selected'> {
  readonly selected: GoTo | undefined
}

/** The predicted water, begun at the part that is selected. */
export function PredictedTab({ selected, ...rest }: PredictedTabProps): ReactNode {
  return (
    <Suspense fallback={<p className="quiet building-wait">Opening the prediction …</p>}>
      <PredictedFace {...rest} selected={selected?.kind === 'part' ? selected.id : undefined} />
    </Suspense>
  )
}
