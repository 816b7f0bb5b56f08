import type { ReportModel, Section } from '@rillmark/casebook/report/model.ts'
import { type ReactNode, useState } from 'react'
import { ReportBlock } from './ReportBlock.tsx'

/** The report in words: the same model the PDF is set from, section by section, every number going to its entry. */
export function ReportOutline({ model }: { readonly model: ReportModel }): ReactNode {
  const { takenOut } = model
  return (
    <div className="report-outline">
      {takenOut.length > 0 && (
        <div className="prose">
          <h2>What is taken out of this variant</h2>
          <ul>
            {takenOut.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        </div>
      )}
      {model.sections.map((section, index) => (
        <OutlineSection key={section.id} section={section} number={index + 1} model={model} />
      ))}
    </div>
  )
}

/** Folded sections hold nothing, so that a long report costs what is looked at. */
function OutlineSection(props: {
  readonly section: Section
  readonly number: number
  readonly model: ReportModel
}): ReactNode {
  const { section, number, model } = props
  const [open, setOpen] = useState(number === 1)
  return (
    <details className="disclosure report-section" open={open} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>
        <h2>
          <span className="quiet num">{number}</span> {section.title}
        </h2>
      </summary>
      {open && (
        <div className="disclosure-body stack">
          {section.blocks.map((block, index) => (
            // oxlint-disable-next-line react/no-array-index-key -- blocks have no names and keep their order
            <ReportBlock key={index} block={block} sources={model.sources} />
          ))}
        </div>
      )}
    </details>
  )
}
