import type { REPORT_SECTIONS } from '@rillmark/casebook/report/kinds.ts'
import type { ReactNode } from 'react'
import { Button } from '../kit/Button.tsx'
import { ButtonRow } from '../kit/ButtonRow.tsx'
import { ProblemList } from '../kit/ProblemList.tsx'
import { TextArea } from '../kit/TextArea.tsx'
import { useToasts } from '../kit/Toasts.tsx'
import { useInvestigation } from '../store/investigation.tsx'
import { useWriting } from '../store/use-writing.ts'
import { useKeptText } from './kept-text.ts'

type TextSection = (typeof REPORT_SECTIONS)[number]

const TEXTS: readonly { readonly section: TextSection; readonly label: string; readonly hint: string }[] = [
  { section: 'summary', label: 'Summary', hint: 'What happened, what was found, what the risk is today. No names.' },
  {
    section: 'recommendations',
    label: 'Recommendations',
    hint: 'What should be done, by whom, by when, and how it is proved.',
  },
  {
    section: 'limits',
    label: 'Limits',
    hint: 'What the record does not show. Its own limits are listed by themselves.',
  },
]

/** What the report says in the investigator's own words. */
export function ReportTexts(): ReactNode {
  return TEXTS.map((text) => <TextForm key={text.section} {...text} />)
}

function TextForm({ section, label, hint }: (typeof TEXTS)[number]): ReactNode {
  const { id, state } = useInvestigation()
  const recorded = state.report.sections.get(section)?.body.text ?? ''
  const [text, setText] = useKeptText(`${id} ${section}`, recorded)
  const { issues, busy, write } = useWriting()
  const { say } = useToasts()
  const changed = text !== recorded
  const save = async (): Promise<void> => {
    if (!(await write('report.written', { section, text }))) return
    setText(text.trim())
    say(`${label} written into the record.`)
  }
  return (
    <form
      className="form"
      onSubmit={(event) => {
        event.preventDefault()
        void save()
      }}
    >
      <TextArea label={label} hint={hint} rows={5} value={text} onChange={setText} />
      <ProblemList problems={issues} />
      {changed && (
        <ButtonRow>
          <Button type="submit" kind="quiet" busy={busy}>
            Record the {label.toLowerCase()}
          </Button>
          <Button kind="text" onPress={() => setText(recorded)}>
            Go back to what is recorded
          </Button>
        </ButtonRow>
      )}
    </form>
  )
}
