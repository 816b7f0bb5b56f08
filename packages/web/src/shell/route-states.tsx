import { Link } from '@tanstack/react-router'
import type { ReactNode } from 'react'
import { Button } from '../kit/Button.tsx'
import { EmptyState } from '../kit/EmptyState.tsx'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { PlainShell } from './PlainShell.tsx'

export function NotFound(): ReactNode {
  return (
    <PlainShell>
      <Page>
        <PageHead
          title="There is no screen at this address"
          lead="The address may be mistyped, or from another installation."
        />
        <Link to="/">See all investigations</Link>
      </Page>
    </PlainShell>
  )
}

export function ScreenPending(): ReactNode {
  return (
    <Page>
      <p className="faint" role="status" aria-busy="true">
        Opening …
      </p>
    </Page>
  )
}

/** A screen that failed says so, keeps the rest usable, and loses nothing: everything written is in the record already. */
export function ScreenFailed({ error }: { readonly error: unknown }): ReactNode {
  return (
    <Page>
      <PageHead title="This screen could not be shown" name="Not shown" />
      <EmptyState
        title="Nothing written is lost"
        action={<Button onPress={() => location.reload()}>Load it again</Button>}
      >
        <p>
          Every entry is kept before it is shown. If loading again does not help, go on with another step and report the
          words below.
        </p>
        <p className="mono">{error instanceof Error ? error.message : String(error)}</p>
      </EmptyState>
    </Page>
  )
}
