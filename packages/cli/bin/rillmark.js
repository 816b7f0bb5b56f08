#!/usr/bin/env node
// Starts the command on the pinned runtime: an older Node re-executes itself with the one in node_modules.
import { spawnSync } from 'node:child_process'
import { existsSync } from 'node:fs'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

const NEEDED_MAJOR = 26
const main = fileURLToPath(new URL('../src/main.ts', import.meta.url))

if (Number(process.versions.node.split('.')[0]) >= NEEDED_MAJOR) {
  await import(main)
} else {
  const pinned = pinnedNode()
  if (pinned === undefined) {
    process.stderr.write(
      `rillmark needs Node ${NEEDED_MAJOR}: expected the pinned runtime in node_modules/node, found none; this is Node ${process.version}. Run "npm ci" once.\n`,
    )
    process.exit(1)
  }
  const run = spawnSync(pinned, [main, ...process.argv.slice(2)], { stdio: 'inherit' })
  process.exit(run.status ?? 1)
}

/** @returns {string | undefined} the path of the runtime installed by the `node` package */
function pinnedNode() {
  try {
    const folder = dirname(createRequire(import.meta.url).resolve('node/package.json'))
    const path = join(folder, 'bin', process.platform === 'win32' ? 'node.exe' : 'node')
    return existsSync(path) ? path : undefined
  } catch {
    return undefined
  }
}
