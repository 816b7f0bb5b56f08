import { Link, useNavigate } from '@tanstack/react-router'
import { type ReactNode, Suspense, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { FileDrop } from '../kit/FileDrop.tsx'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { Progress } from '../kit/Progress.tsx'
import { Section } from '../kit/Section.tsx'
import { lazyPart, sayMissing } from '../shell/lazy-part.tsx'
import { PlainShell } from '../shell/PlainShell.tsx'
import { type Opened, useDevice } from '../store/device.tsx'
import { InvestigationList } from './InvestigationList.tsx'

const DevicePart = lazyPart(async () => ({ default: (await import('./DevicePart.tsx')).DevicePart }))
const StartDialog = lazyPart(async () => ({ default: (await import('./StartDialog.tsx')).StartDialog }), sayMissing)

type Problems = Extract<Opened, { ok: false }>['issues']

/** The first screen: what is in hand on this device, and the three ways to begin. */
export function StartScreen(): ReactNode {
  const device = useDevice()
  const navigate = useNavigate()
  const [starting, setStarting] = useState(false)
  const [busy, setBusy] = useState<string>()
  const [problems, setProblems] = useState<Problems>([])

  const open = async (words: string, act: () => Promise<Opened>): Promise<void> => {
    setBusy(words)
    setProblems([])
    const opened = await act().catch(
      (error: unknown): Opened => ({
        ok: false,
        issues: [{ path: '', expected: 'an answer', received: String(error) }],
      }),
    )
    setBusy(undefined)
    if (opened.ok) await navigate({ to: '/i/$investigation/brief', params: { investigation: opened.id } })
    else setProblems(opened.issues)
  }

  return (
    <PlainShell>
      <Page>
        <PageHead
          title="Investigations"
          lead="From the first call to the written all-clear: cases, the building's water, samples, findings, control."
          actions={
            <>
              <Button kind="primary" onPress={() => setStarting(true)}>
                Start an investigation
              </Button>
              <Button
                onPress={() => void open('Fetching the worked example', device.openExample)}
                disabled={busy !== undefined}
              >
                Open the worked example
              </Button>
            </>
          }
        />
        {busy !== undefined && <Progress label={busy} />}
        <ProblemList problems={problems} title="This could not be opened" />
        <InvestigationList />
        <Section title="Import a package">
          <FileDrop
            label="an investigation package"
            accept={['.zip', 'application/zip']}
            hint="A .zip made with Export. Its chain is verified before anything is kept."
            onFiles={([file]) => {
              if (file !== undefined) void open(`Reading ${file.name}`, () => device.importPackage(file))
            }}
          />
        </Section>
        <Section title="Only a calculation">
          <p className="quiet">
            Doses, flush times, proportions, follow-up dates, each with its sources:{' '}
            <Link to="/calculators/{-$calculator}">Calculators</Link>
          </p>
        </Section>
        <Suspense>
          <DevicePart />
        </Suspense>
      </Page>
      <Suspense>{starting && <StartDialog onClose={() => setStarting(false)} />}</Suspense>
    </PlainShell>
  )
}
