import { createPrivateKey, createPublicKey, generateKeyPairSync, type KeyObject, sign } from 'node:crypto'
import { chmodSync, linkSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { deviceKey, type DeviceKey } from '@rillmark/casebook/devices/kinds.ts'
import { thumbprint } from '@rillmark/casebook/devices/signed-text.ts'
import { DataProblem } from '../folder/data-problem.ts'

/** The key the server signs with: what it writes itself, and what laboratories write through their links. */
export interface ServerKey {
  readonly publicKey: DeviceKey
  /** RFC 7638, hexadecimal: by it signatures point at the key */
  readonly thumbprint: string
  /** ECDSA P-256 with SHA-256 over the UTF-8 of a text; r and s in base64url */
  readonly sign: (text: string) => string
}

const FILE_NAME = 'server.key'
const OWNER_ONLY = 0o600

/**
 * The key kept in a data folder, made when first asked for, readable by its owner only.
 * @throws DataProblem when there is a file that is no such key: another one would not fit what was signed before
 */
export function openServerKey(folder: string): ServerKey {
  const privateKey = readKey(join(folder, FILE_NAME)) ?? makeKey(folder)
  const publicKey = deviceKey.parse(createPublicKey(privateKey).export({ format: 'jwk' }))
  return {
    publicKey,
    thumbprint: thumbprint(publicKey),
    sign: (text) =>
      sign('sha256', Buffer.from(text), { key: privateKey, dsaEncoding: 'ieee-p1363' }).toString('base64url'),
  }
}

function readKey(path: string): KeyObject | undefined {
  try {
    const key = createPrivateKey(readFileSync(path))
    if (key.asymmetricKeyDetails?.namedCurve === 'prime256v1') return key
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined
  }
  throw new DataProblem({
    expected: `${FILE_NAME} as this program wrote it`,
    received: 'a damaged file, or another key',
  })
}

/** Written beside and put in place whole; where another process was quicker, its key counts. */
function makeKey(folder: string): KeyObject {
  const { privateKey } = generateKeyPairSync('ec', { namedCurve: 'P-256' })
  const [path, unfinished] = [join(folder, FILE_NAME), join(folder, `${FILE_NAME}.${process.pid}.part`)]
  writeFileSync(unfinished, privateKey.export({ type: 'pkcs8', format: 'pem' }), { mode: OWNER_ONLY, flush: true })
  chmodSync(unfinished, OWNER_ONLY)
  try {
    linkSync(unfinished, path)
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error
  } finally {
    rmSync(unfinished, { force: true })
  }
  return readKey(path) ?? privateKey
}
