import { asGroup, type Draft, type GroupDraft } from '../form/draft.ts'

/** Between two ends; a tab comes from a spreadsheet. */
const UNTIL = /\s+to\s+|\t+/i
const STAYS = /\s+there\s+/i
const NEXT_STAY = /\s*[,;]\s*/

/** Onsets as drafts, from one line each: `2026-03-10`, `2026-03-10 to 2026-03-12`, `2026-03-10 there 2026-03-01 to 2026-03-05`. */
export function onsetsOfLines(text: string): readonly GroupDraft[] {
  return text
    .split(/\r?\n/)
    .map((line) => line.trim())
    .filter((line) => line !== '')
    .map((line) => {
      const [onset = '', stays = ''] = line.split(STAYS)
      return { ...ends(onset), present: stays === '' ? [] : stays.split(NEXT_STAY).filter(Boolean).map(stay) }
    })
}

/** The lines that stand for onsets. */
export function linesOfOnsets(drafts: readonly Draft[]): string {
  return drafts
    .map((draft) => {
      const { present, ...onset } = asGroup(draft)
      const stays = Array.isArray(present) ? present.map((each: Draft) => endsWords(asGroup(each))) : []
      return stays.length === 0 ? endsWords(onset) : `${endsWords(onset)} there ${stays.join(', ')}`
    })
    .filter((line) => line !== '')
    .join('\n')
}

function ends(text: string): { from: string; to: string } {
  const [from = '', to = ''] = text.split(UNTIL).map((part) => part.trim())
  return { from, to }
}

/** A stay of one day has no second end written. */
function stay(text: string): GroupDraft {
  const { from, to } = ends(text)
  return { from, to: to === '' ? from : to }
}

function endsWords({ from, to }: GroupDraft): string {
  const [start, end] = [from, to].map((each) => (typeof each === 'string' ? each : ''))
  return end === '' ? (start ?? '') : `${start} to ${end}`
}
