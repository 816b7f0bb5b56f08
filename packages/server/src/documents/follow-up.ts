import { followUpCalendar } from '@rillmark/exchange/follow-up/calendar.ts'
import { documentKind } from './document-kind.ts'

export const followUpDocument = documentKind({
  title: 'Follow-up rounds as a calendar',
  contentType: 'text/calendar; charset=utf-8',
  fileName: ({ investigation }) => `${investigation}-follow-up.ics`,
  make: ({ state }) => followUpCalendar(state),
})
