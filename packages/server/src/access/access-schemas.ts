import { isServersName } from '@rillmark/casebook/devices/server-names.ts'
import { envelopeSchema } from '@rillmark/casebook/entry/entry.ts'
import { text } from '@rillmark/casebook/entry/fields.ts'
import * as z from 'zod'
import { problemSchema, refusals } from '../http/schemas.ts'
import { THIS_MACHINE } from './caller.ts'
import { TERMINAL } from './invitations.ts'
import { ROLES } from './roles.ts'

/** A device's own name for itself; those of the server and of laboratories are not free. */
export const deviceId = z
  .string()
  .regex(/^[A-Za-z0-9][A-Za-z0-9.-]{2,79}$/, '3 to 80 letters, digits, dots and dashes')
  .refine((id) => !isServersName(id), 'a name that is not the server’s own')

/** Not the names by which the register and the record tell of the server's own machine. */
export const deviceName = text(120).refine(
  (name) => ![THIS_MACHINE, TERMINAL].includes(name.trim().toLowerCase()),
  `a name other than “${THIS_MACHINE}” and “${TERMINAL}”, by which the server’s own machine goes`,
)
export const role = z.enum(ROLES)
export const moment = z.iso.datetime()
export const reason = text(1000)

export const whoSchema = z.object({ device: z.string(), role, name: z.string() }).describe('Whose session it is')

export const linkParams = z.strictObject({
  id: envelopeSchema.shape.investigation,
  link: z.coerce.number().int().min(1).max(Number.MAX_SAFE_INTEGER),
})

/** What any of these routes may answer instead. */
export const accessRefusals = { 401: problemSchema, 409: problemSchema, 429: problemSchema, ...refusals }

export const isoOf = (ms: number): string => new Date(ms).toISOString()
