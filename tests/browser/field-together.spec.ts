import { expect, type Page, test } from '@playwright/test'
import { makeRound, openAtStop } from './job/field-round.ts'
import { button, field } from './job/person.ts'
import { settleStop, stepOf, wantedBy } from './job/stop.ts'

// What a step writes together is kept together: where the device can't keep the deviation, the sample isn't kept without it either.

test.use({ viewport: { width: 390, height: 844 } })

interface Written {
  readonly kind: string
  readonly body: { readonly label?: string; readonly reason?: string }
}

test('a sample that is short and its deviation are kept both or neither, and what was typed stays', async ({
  page,
}) => {
  const round = makeRound('101 basin tap')
  const visit = await openAtStop(page, round)
  await settleStop(page, { visit, until: 'Label the tube' })
  const wanted = await wantedBy(visit)
  await wanted?.field.fill(wanted.text)
  await field(visit, 'Volume').fill('1')
  await expect(visit.getByText('Kept, it is recorded as a deviation.')).toBeVisible()
  await refuseDeviations(page, true)
  const act = button(visit, `Keep ${wanted?.text}`)
  await act.click()
  await expect(visit.getByText('room and permission to keep it on this device')).toBeVisible()
  await expect(stepOf(visit)).toHaveText('Label the tube')
  await expect(field(visit, 'Volume')).toHaveValue('1')
  await refuseDeviations(page, false)
  await act.click()
  await expect(stepOf(visit)).not.toHaveText('Label the tube')
  await expect
    .poll(async () => {
      const answer = await page.request.get(`/api/investigations/${round.investigation}/entries?after=0&limit=1000`)
      const { links } = (await answer.json()) as { links: { entry: Written }[] }
      const labelled = links.filter(({ entry }) => entry.body.label === wanted?.text)
      return labelled.map(({ entry }) => entry.body.reason ?? entry.kind)
    })
    .toEqual(expect.arrayContaining(['sample.collected', 'volume short']))
})

/** A device that has no more room for an entry of that kind. */
async function refuseDeviations(page: Page, refuse: boolean): Promise<void> {
  await page.evaluate((refusing) => {
    const { prototype } = IDBObjectStore
    const kept: unknown = Reflect.get(globalThis, 'addAsItWas')
    const add = (kept ?? prototype.add) as typeof prototype.add
    Reflect.set(globalThis, 'addAsItWas', add)
    prototype.add = function held(this: IDBObjectStore, ...given: Parameters<typeof add>) {
      if (refusing && JSON.stringify(given[0]).includes('deviation.recorded'))
        throw new DOMException('no more of these', 'UnknownError')
      return add.apply(this, given)
    }
  }, refuse)
}
