import { expect, test } from 'vitest'
import { invitationIn } from './invitation-in.ts'

const ORIGIN = 'https://192.0.2.7:8710'
const TOKEN = `k7Q2m9xTzR4v.${'B1nL8sWc'.repeat(5)}_-x`

test.each([
  [`${ORIGIN}/join#${TOKEN}`, { kind: 'token', token: TOKEN }],
  [` ${ORIGIN}/join#${TOKEN}\n`, { kind: 'token', token: TOKEN }],
  [TOKEN, { kind: 'token', token: TOKEN }],
  [`https://198.51.100.4/join#${TOKEN}`, { kind: 'elsewhere', address: `https://198.51.100.4/join#${TOKEN}` }],
  [`${ORIGIN}/i/marram-house/brief#${TOKEN}`, { kind: 'none' }],
  [`${ORIGIN}/join`, { kind: 'none' }],
  ['MRH-0001-57', { kind: 'none' }],
  [`javascript:alert(1)//join#${TOKEN}`, { kind: 'none' }],
  ['', { kind: 'none' }],
] as const)('[OFF11] %j is read as an invitation or not', (text, read) => {
  expect(invitationIn(text, ORIGIN)).toEqual(read)
})
