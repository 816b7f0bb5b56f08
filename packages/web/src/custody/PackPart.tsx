import type { SampleCustody } from '@rillmark/casebook/custody/sample-custody.ts'
import { type ReactNode, Suspense, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { Disclosure } from '../kit/Disclosure.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { TextField } from '../kit/TextField.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { useWriting } from '../store/use-writing.ts'
import { checkLabel } from './label-check.ts'
import { SampleTable } from './SampleTable.tsx'
import { lazyPart, sayMissing } from '../shell/lazy-part.tsx'

const PackByScan = lazyPart(async () => ({ default: (await import('./PackByScan.tsx')).PackByScan }), sayMissing)

/** Packs samples into an open box by their labels, one after another, each checked as it is typed. */
export function PackPart({
  code,
  loose,
  onSplit,
}: {
  readonly code: string
  readonly loose: readonly SampleCustody[]
  readonly onSplit: (sample: SampleCustody) => void
}): ReactNode {
  const { state } = useInvestigation()
  const { issues, write } = useWriting()
  const [typed, setTyped] = useState('')
  const [last, setLast] = useState<string>()
  const [scanning, setScanning] = useState(false)
  const check = checkLabel(state, typed)
  const pack = async (): Promise<void> => {
    if (check.kind !== 'right') return
    if (!(await write('sample.packed', { consignment: code, label: check.label }))) return
    setLast(check.label)
    setTyped('')
  }
  return (
    <div className="stack">
      <div className="pack-scan">
        <Button kind="primary" size="big" onPress={() => setScanning(true)} name={`Scan labels into ${code}`}>
          Scan labels
        </Button>
      </div>
      {scanning && (
        <Suspense fallback={<p className="quiet">The camera is opening …</p>}>
          <PackByScan code={code} onClose={() => setScanning(false)} />
        </Suspense>
      )}
      <div className="pack-line">
        <TextField
          label={`Label to pack into ${code}`}
          value={typed}
          onChange={setTyped}
          onEnter={() => void pack()}
          issue={check.kind === 'wrong' ? check.advice : undefined}
          hint="Or type it from the bottle; Enter packs it."
          mono
        />
        <Button disabled={check.kind !== 'right'} onPress={() => void pack()}>
          Pack
        </Button>
        <p className="pack-answer" aria-live="polite">
          {check.kind === 'right' ? (
            <>
              <b className="mono">{check.label}</b> {check.words}
            </>
          ) : (
            last !== undefined && check.kind === 'empty' && <span className="quiet">{last} is in.</span>
          )}
        </p>
      </div>
      <ProblemList problems={issues} />
      {loose.length > 0 && <LooseSamples code={code} loose={loose} onSplit={onSplit} />}
    </div>
  )
}

function LooseSamples(props: {
  readonly code: string
  readonly loose: readonly SampleCustody[]
  readonly onSplit: (sample: SampleCustody) => void
}): ReactNode {
  const { code, loose } = props
  const { issues, busy, write } = useWriting()
  const [checked, setChecked] = useState<ReadonlySet<string>>(new Set())
  const ticked = loose.filter(({ label }) => checked.has(label))
  const pack = async (): Promise<void> => {
    for (const { label } of ticked) if (!(await write('sample.packed', { consignment: code, label }))) return
    setChecked(new Set())
  }
  return (
    <Disclosure summary={`${loose.length} collected, in no consignment yet`}>
      <SampleTable
        caption="Samples in no consignment"
        samples={loose}
        checked={checked}
        onCheck={setChecked}
        onSplit={props.onSplit}
      />
      <ProblemList problems={issues} />
      <div>
        <Button disabled={ticked.length === 0} busy={busy} onPress={() => void pack()}>
          I see {ticked.length === 0 ? 'the ticked' : `these ${ticked.length}`} in {code}: pack them
        </Button>
      </div>
    </Disclosure>
  )
}
