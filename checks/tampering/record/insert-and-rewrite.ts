import { entryMaker } from '@rillmark/casebook/testing/entry-maker.ts'
import { entriesIn, INVESTIGATION, relink, type Way } from '../way.ts'

export const way: Way = {
  title: 'an entry is put in and the whole record hashed afresh',
  breaksAt: 12,
  needsHead: true,
  tamper: ({ links }) => {
    const made = entryMaker(INVESTIGATION, { device: 'desk-9' }).make('note.written', {
      text: 'put in later',
      purpose: 'note',
    })
    return relink(entriesIn(links).toSpliced(5, 0, made))
  },
}
