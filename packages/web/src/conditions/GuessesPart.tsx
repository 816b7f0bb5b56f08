import { assumptionRange } from '@rillmark/casebook/conditions/assumption-range.ts'
import type { Assumption } from '@rillmark/casebook/conditions/conditions.ts'
import { inReadersUnits } from '@rillmark/casebook/conditions/in-readers-units.ts'
import type { Effect, Sensitivity } from '@rillmark/casebook/conditions/sensitivity.ts'
import { OUTPUT_WORDS, OUTPUTS, type Output } from '@rillmark/casebook/conditions/sensitivity-outputs.ts'
import { counted } from '@rillmark/casebook/units/counted.ts'
import { type ReactNode, useState } from 'react'
import { Button } from '../kit/Button.tsx'
import { type Column, DataTable } from '../kit/DataTable.tsx'
import { Disclosure } from '../kit/Disclosure.tsx'
import { Note } from '../kit/Note.tsx'
import { Progress } from '../kit/Progress.tsx'
import { Section } from '../kit/Section.tsx'
import { Select } from '../kit/Select.tsx'
import { usePreferences } from '../store/preferences.tsx'
import { effectRange } from './effect-range.ts'
import type { ShownPrediction } from './use-prediction.ts'
import { useWorkerRun } from './use-worker-run.ts'

/** What was filled in or guessed, and on request what each of it does to the prediction. */
export function GuessesPart({ shown }: { readonly shown: ShownPrediction }): ReactNode {
  const { run, state } = useWorkerRun('sensitivity')
  const { assumptions } = shown.conditions
  const found = state.kind === 'done' && state.job.conditions === shown.conditions ? state.answer : undefined
  if (assumptions.length === 0) return null
  const { system, conditions, fitted } = shown
  const start = (): void => run.start({ kind: 'sensitivity', system, conditions, fitted })
  return (
    <Section title="What was guessed and what it does" aside={counted(assumptions.length, 'assumption')}>
      {found === undefined ? (
        <Plain assumptions={assumptions} />
      ) : (
        <>
          <Effects found={found} />
          <Disclosure summary="All that was assumed, with its source">
            <Plain assumptions={assumptions} />
          </Disclosure>
        </>
      )}
      {state.kind === 'running' ? (
        <Progress
          label="Trying each guess at both ends of its range"
          detail="one at a time, so it takes a while"
          fraction={state.fraction}
          onCancel={() => run.stop()}
        />
      ) : (
        found === undefined &&
        shown.from === 'run' && (
          <div>
            <Button onPress={start}>Find out which guesses matter</Button>
          </div>
        )
      )}
      {state.kind === 'stopped' && state.failed !== undefined && (
        <Note kind="bad">It could not be worked out: {state.failed}</Note>
      )}
    </Section>
  )
}

/** As listed by the simulation, before anyone asked what they do. */
function Plain({ assumptions }: { readonly assumptions: readonly Assumption[] }): ReactNode {
  const { units } = usePreferences()
  const columns: readonly Column<Assumption>[] = [
    {
      id: 'text',
      head: 'Assumed',
      sort: ({ text }) => text,
      cell: ({ text, source }) => (
        <span className="ranked-place">
          <span>{inReadersUnits(text, units)}</span>
          <span className="faint guess-source">{source}</span>
        </span>
      ),
    },
    { id: 'range', head: 'May be', numeric: true, cell: (one) => assumptionRange(one, units) },
    { id: 'count', head: 'For parts', numeric: true, sort: ({ count }) => count, cell: ({ count }) => count },
  ]
  return (
    <DataTable
      caption="Filled in because the description does not say, or marked guessed in it"
      rows={assumptions}
      rowId={({ id }) => id}
      columns={columns}
      maxHeight="18rem"
    />
  )
}

/** One figure of the prediction, and what each guess moves it by; the one worth finding out on top. */
function Effects({ found }: { readonly found: Sensitivity }): ReactNode {
  const { units } = usePreferences()
  const known = OUTPUTS.filter((output) => found.baseline[output] !== undefined)
  const [output, setOutput] = useState<Output>(known[0] ?? 'hot-mean')
  const { unit } = OUTPUT_WORDS[output]
  const columns: readonly Column<Effect>[] = [
    { id: 'text', head: 'Guess', sort: ({ text }) => text, cell: ({ text }) => inReadersUnits(text, units) },
    {
      id: 'effect',
      head: 'Makes it',
      numeric: true,
      sort: ({ spread }) => spread,
      cell: (effect) => <span className="ranked-figure">{effectRange(effect, { unit, units })}</span>,
    },
  ]
  const baseline = found.baseline[output]
  return (
    <>
      {found.inputs[0] !== undefined && (
        <p>
          Worth finding out first: <b>{inReadersUnits(found.inputs[0].text, units)}</b>
        </p>
      )}
      <Select
        label="What it does to"
        width="full"
        value={output}
        onChange={setOutput}
        choices={known.map((id) => ({ id, label: OUTPUT_WORDS[id].words }))}
      />
      <DataTable
        key={output}
        caption={`As predicted ${baseline === undefined ? '' : effectRange({ baseline, atLower: undefined, atUpper: undefined }, { unit, units })}; each guess alone at both ends of its range`}
        rows={found.effects[output]}
        rowId={({ input }) => input}
        columns={columns}
        maxHeight="18rem"
      />
      {found.failed.length > 0 && (
        <p className="quiet">{counted(found.failed.length, 'trial')} could not be worked out.</p>
      )}
    </>
  )
}
