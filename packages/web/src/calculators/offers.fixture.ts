import { findCalculation, runCalculation } from '@rillmark/science/catalogue/catalogue.ts'
import type { Offer } from './offer.ts'

/** What is wrong with some offers: no such calculation, or figures filled in that it does not take. Fields still to be filled in are not wrong. */
export function wrongWith(offers: readonly Offer[]): string[] {
  return offers.flatMap(({ id, start = {} }) => {
    if (findCalculation(id) === undefined) return [`${id} is no calculation`]
    const answer = runCalculation({ id, input: start })
    if (!('issues' in answer)) return []
    const wrong = answer.issues.filter(({ received }) => received !== 'nothing')
    return wrong.map(({ path, expected, received }) => `${id} ${path}: ${expected}, not ${received}`)
  })
}

/** The result of an offer whose figures are all known; undefined while some are asked for. */
export function worked(offers: readonly Offer[], id: string): unknown {
  const answer = runCalculation({ id, input: offers.find((each) => each.id === id)?.start ?? {} })
  return 'issues' in answer ? undefined : answer.result
}
