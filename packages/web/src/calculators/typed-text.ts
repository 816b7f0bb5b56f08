import type { GroupDraft } from '../form/draft.ts'

/** What a text of lines or a pasted table comes to. */
export interface TypedText {
  /** the drafts of the fields it fills; their lists are empty where there are problems, so that nothing is calculated from a part */
  readonly drafts: GroupDraft
  readonly problems: readonly string[]
  /** what was read, for people */
  readonly summary: string
}

/** Fields of a group that are filled from one text. */
export interface TextEntry {
  readonly names: readonly string[]
  readonly label: string
  readonly hint: string
  readonly needed: boolean
  readonly read: (text: string) => TypedText
  readonly write: (draft: GroupDraft) => string
  /** what a person calls the place of an issue in the text, by its path in the group */
  readonly placeOf: (path: string, text: string) => string
}
