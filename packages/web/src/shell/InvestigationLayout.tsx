import { Link, Outlet, useParams } from '@tanstack/react-router'
import { type ReactNode, Suspense } from 'react'
import { EmptyState } from '../kit/EmptyState.tsx'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { InvestigationProvider } from '../store/investigation.tsx'
import { useOpening } from '../store/open-investigation.ts'
import { InvestigationShell } from './InvestigationShell.tsx'
import { lazyPart } from './lazy-part.tsx'
import { PlainShell } from './PlainShell.tsx'
import { ScreenPending } from './route-states.tsx'
import { whenIdle } from './when-idle.ts'

/** After the screen: a still is of what has settled. */
const StillKeeper = lazyPart(async () => {
  await whenIdle()
  return { default: (await import('./StillKeeper.tsx')).StillKeeper }
})

/** Opens the investigation named in the address and puts its screens into the shell. */
export function InvestigationLayout(): ReactNode {
  const { investigation } = useParams({ from: '/i/$investigation' })
  const opening = useOpening(investigation)
  if (opening.kind === 'open')
    return (
      <InvestigationProvider store={opening.store}>
        <InvestigationShell>
          <Suspense fallback={<ScreenPending />}>
            <Outlet />
          </Suspense>
        </InvestigationShell>
        <Suspense>
          <StillKeeper store={opening.store} />
        </Suspense>
      </InvestigationProvider>
    )
  return (
    <PlainShell>
      {opening.kind === 'opening' ? (
        <ScreenPending />
      ) : (
        <NotHere reason={opening.kind === 'failed' ? opening.reason : undefined} />
      )}
    </PlainShell>
  )
}

function NotHere({ reason }: { readonly reason: string | undefined }): ReactNode {
  return (
    <Page>
      <PageHead
        title={
          reason === undefined ? 'This investigation is not on this device' : 'This investigation could not be opened'
        }
      />
      <EmptyState title="What you can do" action={<Link to="/">See all investigations</Link>}>
        <p>
          Open it once while the server can be reached, or import its package; from then on it works without a network.
        </p>
        {reason !== undefined && <p className="mono">{reason}</p>}
      </EmptyState>
    </Page>
  )
}
