import type { Block, Cell, NumberedSource, Said } from '@rillmark/casebook/report/model.ts'
import type { ReactNode } from 'react'
import { EntryLinks } from './EntryLinks.tsx'

/** One block of the report model. */
export function ReportBlock(props: { readonly block: Block; readonly sources: readonly NumberedSource[] }): ReactNode {
  const { block, sources } = props
  switch (block.block) {
    case 'heading':
      return <h3>{block.text}</h3>
    case 'text':
      return (
        <div className={block.by === 'author' ? 'report-author prose' : 'prose'}>
          <p>
            {block.text} <Marks said={block} />
          </p>
        </div>
      )
    case 'facts':
      return <FactsBlock facts={block.facts} />
    case 'list':
      return (
        <ul className="report-list">
          {block.items.map((item) => (
            <li key={item.text}>
              {item.text} <Marks said={item} />
            </li>
          ))}
        </ul>
      )
    case 'table':
      return <TableBlock block={block} />
    case 'figure':
      return (
        <figure className="report-figure">
          <img src={`data:image/svg+xml;charset=utf-8,${encodeURIComponent(block.svg)}`} alt={block.alt} />
          <figcaption className="quiet">{block.caption}</figcaption>
        </figure>
      )
    default:
      return <SourcesBlock sources={sources} />
  }
}

function Marks({ said: { entries = [], cites = [] } }: { readonly said: Said }): ReactNode {
  return (
    <span className="faint">
      {cites.map((number) => `[${number}]`).join(' ')}
      {cites.length > 0 && entries.length > 0 && ' '}
      {entries.length > 0 && <EntryLinks entries={entries} named />}
    </span>
  )
}

function FactsBlock({ facts }: { readonly facts: readonly ({ readonly name: string } & Said)[] }): ReactNode {
  return (
    <dl className="report-facts">
      {facts.map((fact, index) => (
        // oxlint-disable-next-line react/no-array-index-key -- several facts go under one name
        <div key={index}>
          <dt>{fact.name}</dt>
          <dd>
            {fact.text} <Marks said={fact} />
          </dd>
        </div>
      ))}
    </dl>
  )
}

function TableBlock({ block }: { readonly block: Extract<Block, { block: 'table' }> }): ReactNode {
  const { caption, columns, rows, note } = block
  return (
    // oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex -- a region that scrolls must be reachable by keyboard
    <div className="table-scroll" tabIndex={0} role="region" aria-label={caption}>
      <table className="table report-table">
        <caption className="table-caption">{caption}</caption>
        <thead>
          <tr>
            {columns.map(({ name, align }, index) => (
              // oxlint-disable-next-line react/no-array-index-key -- columns keep their order
              <th key={index} scope="col" className={align === 'right' ? 'num' : undefined}>
                {name}
              </th>
            ))}
            <th scope="col" className="num">
              Entry
            </th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ cells, entries }, index) => (
            // oxlint-disable-next-line react/no-array-index-key -- rows keep their order
            <tr key={index}>
              {cells.map((cell, at) => (
                // oxlint-disable-next-line react/no-array-index-key -- cells keep their order
                <td
                  key={at}
                  data-head={columns[at]?.name}
                  className={columns[at]?.align === 'right' ? 'num' : undefined}
                >
                  <CellWords cell={cell} />
                </td>
              ))}
              <td data-head="Entry" className="num">
                <EntryLinks entries={entries} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {note !== undefined && <p className="faint">{note}</p>}
    </div>
  )
}

function CellWords({ cell }: { readonly cell: Cell }): ReactNode {
  if (typeof cell === 'string') return cell
  const { text, sub, mono, strong } = cell
  const words = <span className={mono === true ? 'mono' : undefined}>{text}</span>
  return (
    <>
      {strong === true ? <b>{words}</b> : words}
      {sub !== undefined && sub !== '' && <span className="report-sub faint">{sub}</span>}
    </>
  )
}

function SourcesBlock({ sources }: { readonly sources: readonly NumberedSource[] }): ReactNode {
  return (
    <ul className="report-list report-sources">
      {sources.map(({ number, citation, known }) => (
        <li key={number}>
          <span className="mono">[{number}]</span> {citation} <span className="faint">{known}</span>
        </li>
      ))}
    </ul>
  )
}
