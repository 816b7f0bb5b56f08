import * as z from 'zod'
import { base64urlOf, text } from '../entry/fields.ts'

export const DEVICE_ROLES = ['lead', 'sampler', 'reader', 'laboratory', 'server'] as const
export type DeviceRole = (typeof DEVICE_ROLES)[number]

const COORDINATE_BYTES = 32

/** A public key on P-256 as a JWK (RFC 7517, RFC 7518 section 6.2.1), its needed members only. */
export const deviceKey = z.strictObject({
  kty: z.literal('EC'),
  crv: z.literal('P-256'),
  x: base64urlOf(COORDINATE_BYTES),
  y: base64urlOf(COORDINATE_BYTES),
})
export type DeviceKey = z.infer<typeof deviceKey>

export const DEVICES_KINDS = {
  /** the first a device writes once it has a key, signed by that very key */
  'device.joined': {
    step: 'record',
    title: 'Device joined',
    body: z.strictObject({ name: text(120), role: z.enum(DEVICE_ROLES), key: deviceKey }),
  },
  /** from here on the device writes nothing more; what it wrote before stays */
  'device.revoked': {
    step: 'record',
    title: 'Device revoked',
    body: z.strictObject({ device: text(80), reason: text(1000) }),
  },
} as const
