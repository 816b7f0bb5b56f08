import { type ReactNode, useState } from 'react'
import type { GroupDraft } from '../form/draft.ts'
import { SchemaFields, type SchemaFormProps } from '../form/SchemaForm.tsx'
import { TextArea } from '../kit/TextArea.tsx'
import { linesOfOnsets, onsetsOfLines } from './onset-lines.ts'

/** Takes over a group that asks for onsets: one a line, so that a column can be pasted. */
export function onsetFields(group: SchemaFormProps): ReactNode | undefined {
  return group.fields[0]?.name === 'onsets' ? <OnsetFields {...group} /> : undefined
}

function OnsetFields(group: SchemaFormProps): ReactNode {
  const { draft, onChange, fields, issueAt } = group
  const drafts = Array.isArray(draft['onsets']) ? (draft['onsets'] as readonly GroupDraft[]) : []
  const stands = linesOfOnsets(drafts)
  const [typed, setTyped] = useState(stands)
  // What was typed stays as typed, spaces and all, until the figures are changed from elsewhere.
  const text = linesOfOnsets(onsetsOfLines(typed)) === stands ? typed : stands
  const change = (next: string): void => {
    setTyped(next)
    onChange({ ...draft, onsets: onsetsOfLines(next) })
  }
  return (
    <>
      <TextArea
        label="Onsets, one a line"
        hint="2026-03-10, or 2026-03-10 to 2026-03-12 where uncertain; with hours 2026-03-10T14:00. Add stays where known: 2026-03-10 there 2026-03-01 to 2026-03-05"
        value={text}
        onChange={change}
        rows={8}
        mono
        required
        issue={issueInLines(drafts, issueAt)}
      />
      <SchemaFields {...group} fields={fields.filter(({ name }) => name !== 'onsets')} />
    </>
  )
}

/** The first thing wrong in any line, by its number. */
function issueInLines(drafts: readonly GroupDraft[], issueAt: SchemaFormProps['issueAt']): string | undefined {
  const whole = issueAt('onsets')
  if (whole !== undefined) return whole
  for (const [index, { present }] of drafts.entries()) {
    const at = `onsets.${index}`
    const stays = Array.isArray(present) ? present.length : 0
    const paths = [
      at,
      `${at}.from`,
      `${at}.to`,
      ...Array.from({ length: stays }, (_, stay) => [`${at}.present.${stay}.from`, `${at}.present.${stay}.to`]).flat(),
    ]
    const issue = paths.map(issueAt).find((each) => each !== undefined)
    if (issue !== undefined) return `Line ${index + 1}. ${issue}`
  }
  return undefined
}
