import type { Step } from '@rillmark/casebook/entry/steps.ts'
import { findCalculation } from '@rillmark/science/catalogue/catalogue.ts'
import type { Calculation } from '@rillmark/science/catalogue/descriptor.ts'
import { type ReactNode, useMemo, useState } from 'react'
import { groupDraft } from '../form/draft.ts'
import { fieldsOf, type NamedField } from '../form/field-spec.ts'
import { SchemaForm } from '../form/SchemaForm.tsx'
import { Disclosure } from '../kit/Disclosure.tsx'
import { givenBy, issuesIn } from './calculation-run.ts'
import { CalculatorLink } from './CalculatorLink.tsx'
import './calculators.css'
import { ResultActs } from './ResultActs.tsx'
import { ResultBody } from './ResultBody.tsx'
import { specialFields } from './special-fields.ts'
import { useSettled } from './use-draft.ts'
import { useRun } from './use-run.ts'
import type { Worked } from './working.ts'

export interface ReckonerProps {
  readonly id: string
  /** what is known already; the rest is asked for */
  readonly start?: unknown
  /** the step it stands in */
  readonly about?: Step | undefined
  /** what can be done with the result instead of recording and copying it */
  readonly act?: ((worked: Worked) => ReactNode) | undefined
}

/** A calculation in place: what is known is filled in, the result stands beside it, its page with the working is one link away. */
export function Reckoner({ id, ...rest }: ReckonerProps): ReactNode {
  const calculation = findCalculation(id)
  return calculation === undefined ? null : <Reckoning {...rest} calculation={calculation} />
}

function Reckoning(props: Omit<ReckonerProps, 'id'> & { readonly calculation: Calculation }): ReactNode {
  const { calculation, start, about, act } = props
  const fields = useMemo(() => fieldsOf(calculation.input), [calculation])
  const [draft, setDraft] = useState(() => groupDraft(fields, start))
  const run = useRun(calculation, { fields, draft: useSettled(draft) })
  const form = (
    <SchemaForm fields={fields} draft={draft} onChange={setDraft} {...issuesIn(run)} special={specialFields} />
  )
  const [folded] = useState(() => isLong(fields) && run.kind === 'worked')
  return (
    <div className="reckoner">
      <div className="reckoner-parts">
        {folded ? <Disclosure summary="The figures put in, to change them">{form}</Disclosure> : form}
        <div className="stack">
          <ResultBody calculation={calculation} fields={fields} run={run} />
          {run.kind === 'worked' &&
            (act?.(run.worked) ?? <ResultActs calculation={calculation} worked={run.worked} about={about} />)}
          <p className="reckoner-link">
            <CalculatorLink id={calculation.id} figures={givenBy(fields, draft)}>
              Working and sources: {calculation.title}
            </CalculatorLink>
          </p>
        </div>
      </div>
    </div>
  )
}

/** A form of rows and groups stays folded where the record fills it in: the answer comes first. */
const isLong = (fields: readonly NamedField[]): boolean =>
  fields.some(({ spec }) => spec.kind === 'list' || spec.kind === 'group')
