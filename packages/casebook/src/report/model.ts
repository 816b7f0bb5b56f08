import type { IsoDate } from '@rillmark/science/calendar/iso-date.ts'

/** `redacted` leaves out what could point to a person who fell ill or name a worker. */
export type Variant = 'full' | 'redacted'

/** A table cell: a text, or a text with what stands smaller below it. */
export interface CellParts {
  readonly text: string
  readonly sub?: string
  readonly mono?: boolean
  readonly strong?: boolean
}
export type Cell = string | CellParts

export interface Row {
  readonly cells: readonly Cell[]
  /** numbers of the entries it rests on: their places in the record, counted from 1 */
  readonly entries: readonly number[]
}

export interface Column {
  readonly name: string
  /** share of the width beside the other columns */
  readonly width: number
  readonly align?: 'right'
}

/** Some words with the entries they rest on and the source they are taken from. */
export interface Said {
  readonly text: string
  readonly entries?: readonly number[]
  /** numbers in the list of sources */
  readonly cites?: readonly number[]
}

export type Block =
  | { readonly block: 'heading'; readonly text: string }
  | ({ readonly block: 'text'; readonly by: 'author' | 'record' } & Said)
  | { readonly block: 'facts'; readonly facts: readonly ({ readonly name: string } & Said)[] }
  | { readonly block: 'list'; readonly items: readonly Said[] }
  | {
      readonly block: 'table'
      readonly caption: string
      readonly columns: readonly Column[]
      readonly rows: readonly Row[]
      readonly note?: string
    }
  | {
      readonly block: 'figure'
      readonly caption: string
      readonly alt: string
      readonly svg: string
      readonly width: number
      readonly height: number
    }
  | { readonly block: 'sources' }

/** In the order they are read; `conditions` is there only where a prediction was recorded. */
export const SECTION_IDS = [
  'summary',
  'cases',
  'building',
  'conditions',
  'fitted',
  'plan',
  'fieldwork',
  'custody',
  'results',
  'findings',
  'control',
  'follow-up',
  'limits',
  'method',
  'record',
] as const
export type SectionId = (typeof SECTION_IDS)[number]

export interface Section {
  readonly id: SectionId
  readonly title: string
  readonly blocks: readonly Block[]
}

export interface NumberedSource {
  readonly number: number
  readonly citation: string
  readonly known: string
}

export interface ReportHeader {
  readonly title: string
  readonly investigation: string
  readonly place: string
  readonly setting: string
  readonly variant: Variant
  readonly openedOn: IsoDate | undefined
  /** the day the report speaks of */
  readonly today: IsoDate
  /** instant of the last entry */
  readonly asOf: string
  readonly status: string
  readonly head: { readonly sequence: number; readonly hash: string }
}

export interface ReportModel {
  readonly format: 'rillmark/report@1'
  readonly header: ReportHeader
  readonly sections: readonly Section[]
  readonly sources: readonly NumberedSource[]
  /** what this variant leaves out; empty for the full one */
  readonly takenOut: readonly string[]
}
