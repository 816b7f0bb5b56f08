// What nobody should send, by sort. Everything here is made, none of it is anybody's data.

/** A request body with the content type it claims. */
export interface BadBody {
  readonly name: string
  readonly type: string | undefined
  readonly bytes: Uint8Array
}

const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text)
const json = (name: string, text: string): BadBody => ({ name, type: 'application/json', bytes: utf8(text) })

const NESTED_LEVELS = 20_000
const BRACKETS = 10_000_000
const LONG = 100_000

export const BAD_BODIES: readonly BadBody[] = [
  { name: 'no body', type: undefined, bytes: new Uint8Array() },
  { name: 'an empty body', type: 'application/json', bytes: new Uint8Array() },
  json('spaces', ' \n\t '),
  json('a number', '7'),
  json('text', '"entries"'),
  json('null', 'null'),
  json('truth', 'true'),
  json('a list', '[1,"two",null]'),
  json('an unknown field', '{"surprise":true}'),
  json('half of an object', '{"entries":['),
  json('two values', '{} {}'),
  json('a number JSON has not', '{"entries":[NaN]}'),
  json('a number beyond all numbers', '{"entries":1e999,"x":-1e999}'),
  json('a key that would change the object', '{"__proto__":{"polluted":true},"entries":[{}]}'),
  json('a key that would change the constructor', '{"constructor":{"prototype":{"polluted":true}}}'),
  json('a deep nest', `${'{"deep":['.repeat(NESTED_LEVELS)}${']}'.repeat(NESTED_LEVELS)}`),
  json('ten megabytes of open brackets', '['.repeat(BRACKETS)),
  json('ten megabytes of brackets', '['.repeat(BRACKETS / 2) + ']'.repeat(BRACKETS / 2)),
  json('a very long key', `{"${'k'.repeat(LONG)}":1}`),
  json('zero bytes', '{"entries":["\\u0000"],"\\u0000":"\\u0000"}'),
  json('half of a surrogate pair', '{"entries":"\\ud800"}'),
  { name: 'bytes that are no UTF-8', type: 'application/json', bytes: Uint8Array.of(0x7b, 0xff, 0xfe, 0x80, 0x7d) },
  { name: 'UTF-16', type: 'application/json', bytes: Uint8Array.of(0xff, 0xfe, 0x7b, 0, 0x7d, 0) },
  { name: 'JSON as text', type: 'text/plain', bytes: utf8('{}') },
  { name: 'XML', type: 'text/xml', bytes: utf8('<!DOCTYPE x [<!ENTITY e SYSTEM "file:///etc/hostname">]><x>&e;</x>') },
  { name: 'a form', type: 'application/x-www-form-urlencoded', bytes: utf8('entries=1&entries=2') },
  { name: 'a form in parts without its boundary', type: 'multipart/form-data', bytes: utf8('--x\r\n') },
  { name: 'a type that is no type', type: ';;;/\\', bytes: utf8('{}') },
  { name: 'a picture that is text', type: 'image/png', bytes: utf8('<svg onload=alert(1)>') },
  { name: 'an archive that is text', type: 'application/zip', bytes: utf8('PK\x03\x04 and nothing more') },
  { name: 'an empty archive', type: 'application/zip', bytes: new Uint8Array() },
  { name: 'bytes of no kind', type: 'application/octet-stream', bytes: Uint8Array.of(0, 1, 2, 253, 254, 255) },
]

/** Ids as they stand in an address. */
export const BAD_IDS: readonly string[] = [
  '..%2F..%2Fetc%2Fpasswd',
  '..%5C..%5Cwindows',
  '%2e%2e',
  '.%2e%2f',
  '%00',
  'a%00b',
  '%ff%fe',
  '%E0%A4%A',
  '%',
  '__proto__',
  'toString',
  'NaN',
  '-1',
  '%20',
  'A%20B',
  "'%20OR%201%3D1--",
  '%3Cscript%3E',
  'caf%C3%A9',
  'x'.repeat(199),
  'x'.repeat(5000),
  'a'.repeat(63) + 'A',
]

/** Ids of the right shape that would do harm if they were looked up as names of an object's insides, or as values. */
export const VALID_SHAPED_IDS: readonly string[] = ['constructor', 'valueof', 'null', '1e999', '000', 'con']

/** Query strings, without the question mark. */
export const BAD_QUERIES: readonly string[] = [
  'after=x',
  'after=-1',
  'after=1.5',
  'after=NaN',
  'after=1e999',
  'after=9007199254740993',
  'after=1&after=2',
  'limit=0',
  'limit=1e9',
  'limit[]=5',
  'limit=%00',
  'after=%ff',
  '__proto__=1',
  '__proto__[x]=1',
  'constructor=1',
  'surprise=1',
  '%00=%00',
  `after=${'9'.repeat(5000)}`,
  '=&=&&&',
  'paper=../../etc/passwd',
  'team=1e999',
  'round=%3Cscript%3E',
  `consignment=${'x'.repeat(500)}`,
]

export const BAD_METHODS = ['DELETE', 'PATCH', 'OPTIONS', 'PUT', 'POST', 'GET', 'TRACE', 'SEARCH'] as const
