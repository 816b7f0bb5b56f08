import * as z from 'zod'
import { DEVICE_ROLES } from '@rillmark/casebook/devices/kinds.ts'
import { type DeviceDatabase, DURABLE } from '../ledger/database.ts'

const enrolledSchema = z.object({ name: z.string(), role: z.enum(DEVICE_ROLES) })

/** As whom the server let this device in: what its first entry in an investigation says. */
export type Enrolled = z.infer<typeof enrolledSchema>

const KEY = 'enrolled'

/** Undefined while this device has joined no server. */
export async function readEnrolled(database: DeviceDatabase): Promise<Enrolled | undefined> {
  const kept = await database.get('device', KEY)
  if (kept === undefined) return undefined
  return enrolledSchema.safeParse(JSON.parse(kept)).data
}

export async function keepEnrolled(database: DeviceDatabase, enrolled: Enrolled): Promise<void> {
  const transaction = database.transaction('device', 'readwrite', DURABLE)
  await Promise.all([transaction.store.put(JSON.stringify(enrolled), KEY), transaction.done])
}
