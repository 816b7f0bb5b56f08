import { useEffect } from 'react'
import { letGo } from '../offline/let-go.ts'
import { wasLetIn } from '../offline/let-in.ts'
import { keepStills } from '../opening/keep-stills.ts'
import { useDevice } from '../store/device.tsx'
import type { InvestigationStore } from '../store/investigation-store.ts'
import { sessionStanding } from '../sync/session.ts'

/** Shows nothing: keeps a still of the screen, with which the app opens the next time. */
export function StillKeeper({ store }: { readonly store: InvestigationStore }): undefined {
  const device = useDevice()
  useEffect(
    () =>
      keepStills({
        investigation: store.id,
        isSound: () =>
          letGo.get() === undefined &&
          wasLetIn() &&
          sessionStanding.get() === 'fine' &&
          store.snapshot().sync.unsound === undefined,
        version: () => store.snapshot().version,
        keep: (drawn) => device.keepStill(store.id, drawn),
      }),
    [store, device],
  )
}
