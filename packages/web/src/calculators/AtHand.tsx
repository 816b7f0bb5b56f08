import type { Step } from '@rillmark/casebook/entry/steps.ts'
import { type ReactNode, Suspense, useState } from 'react'
import { Section } from '../kit/Section.tsx'
import './at-hand.css'
import type { Offer } from './offer.ts'
import { lazyPart, sayMissing } from '../shell/lazy-part.tsx'

const Reckoner = lazyPart(async () => ({ default: (await import('./Reckoner.tsx')).Reckoner }), sayMissing)

/** Calculations a step needs, each asked as a question and worked in place with what the record already knows. */
export function AtHand(props: {
  readonly about: Step
  readonly offers: readonly Offer[]
  readonly title?: string
}): ReactNode {
  return (
    <Section title={props.title ?? 'Work it out here'}>
      <Offers about={props.about} offers={props.offers} />
    </Section>
  )
}

/** The same without a frame of its own. */
function Offers({ about, offers }: { readonly about: Step; readonly offers: readonly Offer[] }): ReactNode {
  return (
    <ul className="at-hand">
      {offers.map((offer) => (
        <li key={`${offer.id} ${offer.question}`}>
          <OneOffer offer={offer} about={about} />
        </li>
      ))}
    </ul>
  )
}

/** Folded until asked, and only then fetched. */
function OneOffer({ offer, about }: { readonly offer: Offer; readonly about: Step }): ReactNode {
  const [open, setOpen] = useState(false)
  const { id, question, start } = offer
  return (
    <details className="disclosure" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{question}</summary>
      {open && (
        <div className="disclosure-body">
          <Suspense fallback={<p className="quiet">One moment.</p>}>
            <Reckoner id={id} start={start} about={about} />
          </Suspense>
        </div>
      )}
    </details>
  )
}
