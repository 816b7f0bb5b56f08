import type { CommandTable } from './dispatch.ts'

/** Every command, loaded when it is called. To add one, add its line. */
export const commands: CommandTable = {
  report: {
    summary: 'writes the report of an investigation as PDF',
    load: async () => (await import('./report.ts')).reportCommand,
  },
  export: {
    summary: 'writes the open package of an investigation',
    load: async () => (await import('./export.ts')).exportCommand,
  },
  import: {
    summary: 'takes an open package in, verified whole',
    load: async () => (await import('./import.ts')).importCommand,
  },
  receipt: {
    summary: 'writes a receipt of one sample, for a laboratory or another party',
    load: async () => (await import('./receipt.ts')).receiptCommand,
  },
  verify: {
    summary: 'checks packages, receipts and records, and names what fails',
    load: async () => (await import('./verify.ts')).verifyCommand,
  },
  start: {
    summary: 'serves the app and its API from a data folder',
    load: async () => (await import('./start.ts')).startCommand,
  },
  plan: {
    summary: 'makes a sampling plan from a water system, cases and a budget',
    load: async () => (await import('./plan.ts')).planCommand,
  },
  schema: {
    summary: 'prints the JSON Schema of a file format',
    load: async () => (await import('./schema.ts')).schemaCommand,
  },
  calc: {
    summary: 'runs a calculation, lists them or explains one',
    load: async () => (await import('./calc.ts')).calcCommand,
  },
  system: {
    summary: 'builds, checks, draws or simulates a building’s water',
    load: async () => (await import('./system.ts')).systemCommand,
  },
}
