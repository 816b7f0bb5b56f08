import type { Calculation } from '@rillmark/science/catalogue/descriptor.ts'
import { type ReactNode, useMemo } from 'react'
import { groupDraft } from '../form/draft.ts'
import { fieldsOf } from '../form/field-spec.ts'
import { SchemaForm } from '../form/SchemaForm.tsx'
import { Button } from '../kit/Button.tsx'
import { Page } from '../kit/Page.tsx'
import { PageHead } from '../kit/PageHead.tsx'
import { Section } from '../kit/Section.tsx'
import { useToasts } from '../kit/Toasts.tsx'
import { issuesIn } from './calculation-run.ts'
import { CalculatorLink, useAround } from './CalculatorLink.tsx'
import { Recorded } from './Recorded.tsx'
import { ResultPart } from './ResultPart.tsx'
import { specialFields } from './special-fields.ts'
import { useKeptDraft, useSettled } from './use-draft.ts'
import { useRun } from './use-run.ts'
import { SourcesPart, WorkingPart } from './WorkingPart.tsx'

/** One calculation: its form, its result at once, its working, its sources. All of it from the descriptor. */
export function CalculatorPage({ calculation }: { readonly calculation: Calculation }): ReactNode {
  const { say } = useToasts()
  const around = useAround()
  const fields = useMemo(() => fieldsOf(calculation.input), [calculation])
  const [draft, setDraft] = useKeptDraft(calculation.id, fields)
  const settled = useSettled(draft)
  const run = useRun(calculation, { fields, draft: settled })
  const fill = (input: unknown, words: string): void => {
    const before = draft
    setDraft(groupDraft(fields, input))
    say(words, { undo: () => setDraft(before) })
  }
  return (
    <Page wide>
      <p className="calc-back">
        <CalculatorLink>All calculators</CalculatorLink>
      </p>
      <PageHead
        title={calculation.title}
        lead={calculation.purpose}
        actions={
          <>
            <Button onPress={() => fill(calculation.example.input, 'The example was filled in.')}>
              Fill in the example
            </Button>
            <Button onPress={() => fill(undefined, 'The form was emptied.')}>Empty</Button>
          </>
        }
      />
      <div className="calc">
        <Section title="Figures">
          <SchemaForm fields={fields} draft={draft} onChange={setDraft} {...issuesIn(run)} special={specialFields} />
        </Section>
        <ResultPart calculation={calculation} fields={fields} run={run} />
      </div>
      <WorkingPart calculation={calculation} worked={run.kind === 'worked' ? run.worked : undefined} />
      <SourcesPart sources={calculation.sources} />
      {around !== undefined && (
        <Recorded id={calculation.id} onTake={(input) => fill(input, 'The recorded figures were filled in.')} />
      )}
    </Page>
  )
}
