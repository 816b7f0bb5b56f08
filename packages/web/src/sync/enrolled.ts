import * as z from 'zod'
import { DEVICE_ROLES } from '@rillmark/casebook/devices/kinds.ts'
import { type DeviceDatabase, DURABLE } from '../ledger/database.ts'

const enrolledSchema = z.object({ name: z.string(), role: z.enum(DEVICE_ROLES) })

/** As whom the server let this device in: what its first entry in an investigation says. */
export type Enrolled = z.infer<typeof enrolledSchema>

/** As whom this device writes. A server that stands open to its own machine gives it no name. */
export type AsWhom = Pick<Enrolled, 'role'> & { readonly name?: string }

const KEY = 'enrolled'
/** that the server asks nobody who they are */
const OPEN = 'open'

/** Undefined while this device has joined no server. */
export async function readEnrolled(database: DeviceDatabase): Promise<Enrolled | undefined> {
  const kept = await database.get('device', KEY)
  if (kept === undefined) return undefined
  return enrolledSchema.safeParse(JSON.parse(kept)).data
}

/** With the old name of a device goes as whom it was let in. */
export function forgetEnrolled(store: { delete: (key: string) => Promise<void> }): Promise<void> {
  return store.delete(KEY)
}

export async function keepEnrolled(database: DeviceDatabase, enrolled: Enrolled): Promise<void> {
  const transaction = database.transaction('device', 'readwrite', DURABLE)
  await Promise.all([transaction.store.put(JSON.stringify(enrolled), KEY), transaction.done])
}

/** As whom this device writes; undefined while the server has not said it: nobody may guess it, for the role is signed. */
export async function readAsWhom(database: DeviceDatabase): Promise<AsWhom | undefined> {
  const enrolled = await readEnrolled(database)
  if (enrolled !== undefined) return enrolled
  return (await database.get('device', OPEN)) === undefined ? undefined : { role: 'lead' }
}

export async function keepOpen(database: DeviceDatabase): Promise<void> {
  await database.put('device', 'yes', OPEN)
}
