import { bodyFacts } from '@rillmark/casebook/record/body-facts.ts'
import { type ReactNode, useState } from 'react'
import { PictureByHash } from '../entry/PictureByHash.tsx'
import type { NamedField } from '../form/field-spec.ts'
import { labelAt } from '../form/label-at.ts'
import { Button } from '../kit/Button.tsx'

const FIRST_FACTS = 40
const LONG_VALUE = 36

/** All facts of a body, each by the name people have for it; long ones below their name. */
export function BodyFacts(props: { readonly body: unknown; readonly fields: readonly NamedField[] }): ReactNode {
  const facts = bodyFacts(props.body)
  const [all, setAll] = useState(false)
  if (facts.length === 0) return <p className="quiet">Nothing besides the reason.</p>
  const shown = all ? facts : facts.slice(0, FIRST_FACTS)
  const photo = facts.find(({ path, value }) => PHOTO_PATH.test(path) && HASH.test(value))
  return (
    <>
      <dl className="record-facts">
        {shown.map(({ path, value }) => {
          const { label, unit } = labelAt(props.fields, path)
          const words = unit === '' ? value : `${value} ${unit}`
          return (
            <div key={path} className={words.length > LONG_VALUE ? 'record-fact-long' : undefined}>
              <dt>{label}</dt>
              <dd className={HASH.test(value) ? 'mono' : undefined}>{words}</dd>
            </div>
          )
        })}
      </dl>
      {shown.length < facts.length && (
        <div>
          <Button onPress={() => setAll(true)}>Show all {facts.length} facts</Button>
        </div>
      )}
      {photo !== undefined && (
        <PictureByHash className="record-photo" sha256={photo.value} shows={textAt(props.body, 'shows')} />
      )}
    </>
  )
}

const HASH = /^[0-9a-f]{64}$/
const PHOTO_PATH = /^(photo|sha256)$/

function textAt(body: unknown, name: string): string {
  const value: unknown = typeof body === 'object' && body !== null ? Reflect.get(body, name) : undefined
  return typeof value === 'string' ? value : 'what this entry is about'
}
