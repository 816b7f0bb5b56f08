import type { Plugin } from 'vite'

/** Reference data that its file checks and completes when it is read: where, and under which name. */
const READ_AT_BUILD: Readonly<Record<string, string>> = {
  '/casebook/src/building/devices.ts': 'DEVICES_TO_SWEEP',
  '/casebook/src/control/reference-measures.ts': 'MEASURES_REFERENCE',
  '/casebook/src/criteria/criteria-sets.ts': 'CRITERIA_SETS',
  '/casebook/src/procedures/procedures.ts': 'PROCEDURES',
}

/** Checks and completes the reference data once, at the build, and not at each opening of the app. */
export function readReferences(): Plugin {
  return {
    name: 'rillmark-read-references',
    apply: 'build',
    enforce: 'pre',
    transform: {
      filter: { id: Object.keys(READ_AT_BUILD).map((end) => new RegExp(`${end}$`)) },
      async handler(code, id) {
        const name = Object.entries(READ_AT_BUILD).find(([end]) => id.endsWith(end))?.[1] ?? ''
        const module = (await import(id)) as Readonly<Record<string, unknown>>
        const checked = new RegExp(`(export const ${name}\\b[^=]*= )[^]*?(?=\\n\\n)`)
        if (!checked.test(code))
          throw new TypeError(`Cannot read ${name} at the build because ${id} holds it otherwise`)
        return code.replace(checked, (_, head: string) => `${head}${JSON.stringify(module[name])}`)
      },
    },
  }
}
