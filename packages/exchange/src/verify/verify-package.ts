import { entriesOf } from '@rillmark/casebook/chain/entries-of.ts'
import type { Head, Link } from '@rillmark/casebook/chain/link.ts'
import type { Receipt } from '@rillmark/casebook/receipt/receipt.ts'
import { recordTree } from '@rillmark/casebook/receipt/record-tree.ts'
import { derive } from '@rillmark/casebook/state/derive.ts'
import type { InvestigationState } from '@rillmark/casebook/state/investigation-state.ts'
import { parseWith } from '@rillmark/science/catalogue/from-zod.ts'
import { type Issue, statedIssue } from '@rillmark/science/catalogue/issue.ts'
import { attachmentsIn } from '../package/attachments-in.ts'
import { derivedFiles, prettyJson } from '../package/derived-files.ts'
import { jsonOf, textOf } from '../package/file-text.ts'
import { issuedReports } from '../package/issued-reports.ts'
import { listingIssues } from '../package/listing-issues.ts'
import {
  ENTRIES_PATH,
  KEYS_PATH,
  MANIFEST_PATH,
  type Manifest,
  manifestSchema,
  TREE_PATH,
} from '../package/manifest.ts'
import { openArchive } from '../package/open-archive.ts'
import { TABLES_VERSION } from '../package/tables.ts'
import { archiveFormIssues } from './archive-form.ts'
import { checkAttachments, type PackageRead } from './check-attachments.ts'
import { derivedFindings, layerOf } from './check-derived.ts'
import { walkDevices } from './check-devices.ts'
import { checkRecord } from './check-record.ts'
import { checkReports, reportCautions } from './check-reports.ts'
import { cautionsOf } from './cautions.ts'
import { failedJobs, type SignatureCheck } from './signature-jobs.ts'
import { failedIssue, receiptFindings } from './verify-record.ts'
import { type Facts, type Finding, foundIn, type Layer, type Verdict, verdictOf } from './verdict.ts'

export interface VerifyOptions {
  readonly checkSignature: SignatureCheck
  /** a head known from elsewhere, a printed report for instance */
  readonly head?: Head | undefined
  /** receipts kept by others, each sound in itself */
  readonly receipts?: readonly Receipt[] | undefined
  /** what is being done, and how far it is */
  readonly told?: ((doing: string, done: number, of: number) => void) | undefined
}

/**
 * Verifies everything in a package, layer by layer, and names all that does not hold. One function for the command, the page inside the
 * package and whoever else asks: the same bytes get the same verdict. Never throws on bad data.
 */
export async function verifyPackage(bytes: Uint8Array, options: VerifyOptions): Promise<Verdict> {
  const told = options.told ?? (() => undefined)
  told('Opening the archive', 0, 1)
  const opened = openArchive(bytes)
  if (!opened.ok) return early(foundIn('archive', opened.issues))
  const { files, members } = opened
  const form = foundIn('archive', archiveFormIssues(bytes, members))
  const manifest = parseWith(manifestSchema, jsonOf(files.get(MANIFEST_PATH)))
  if (!manifest.ok) {
    const placed = manifest.issues.map((each) => ({ ...each, path: `${MANIFEST_PATH} ${each.path}`.trim() }))
    return early([...form, ...foundIn('manifest', placed)])
  }
  told('Hashing files', 0, 1)
  const outside = [
    ...form,
    ...manifestFindings(manifest.value, files),
    ...foundIn('files', listingIssues(manifest.value, files)),
  ]
  told('Walking the chain', 0, 1)
  const record = checkRecord(files.get(ENTRIES_PATH), { manifest: manifest.value, head: options.head })
  const walked = [...outside, ...record.findings]
  if (record.links.length === 0) return early(walked, manifest.value)
  const parts = { manifest: manifest.value, files, links: record.links, entries: entriesOf(record.links) }
  return verifyRecord(parts, { options: { ...options, told }, outside: walked })
}

interface Going {
  readonly options: VerifyOptions & { readonly told: NonNullable<VerifyOptions['told']> }
  readonly outside: readonly Finding[]
}

/** What rests on a chain that holds: signatures, devices, everything derived, pictures, reports, receipts. */
async function verifyRecord(parts: PackageRead, { options, outside }: Going): Promise<Verdict> {
  const { manifest, files, links, entries } = parts
  const { told } = options
  const devices = walkDevices(links, manifest.investigation)
  const failed = await failedJobs(devices.jobs, {
    check: options.checkSignature,
    told: (done, of) => told('Checking signatures', done, of),
  })
  told('Making the tree', 0, 1)
  const tree = recordTree(links)
  told('Making the tables again', 0, 1)
  const state = derive(manifest.investigation, entries)
  const made = derivedFiles({ state, entries, tree })
  const findings = [
    ...outside,
    ...devices.findings,
    ...foundIn('signatures', failed.map(failedIssue)),
    ...derivedFindings(files, comparable(parts, made)),
    ...foundIn('attachments', checkAttachments(parts)),
    ...foundIn('reports', checkReports(parts)),
    ...foundIn('manifest', saidIssues(parts, state)),
    ...receiptFindings(options.receipts ?? [], { investigation: manifest.investigation, tree, links }),
  ]
  return verdictOf({
    findings,
    looked: lookedAt(parts, options),
    cautions: [
      ...cautionsOf(parts, { counts: devices.counts, options }),
      ...devices.cautions,
      ...reportCautions(parts),
    ],
    facts: { ...factsOf(manifest), head: headOf(links), root: tree.root(), ...devices.counts },
  })
}

/** A verdict where what rests on the record can't be asked any more. */
function early(findings: readonly Finding[], manifest?: Manifest): Verdict {
  const facts = manifest === undefined ? { kind: 'package' as const } : factsOf(manifest)
  return verdictOf({ findings, looked: new Set(), cautions: [], facts })
}

/** Written another way than a manifest is (a key twice, other spacing), two programs could read it in two ways. */
function manifestFindings(manifest: Manifest, files: ReadonlyMap<string, Uint8Array>): Finding[] {
  const json = jsonOf(files.get(MANIFEST_PATH))
  const again = prettyJson(json) === textOf(files.get(MANIFEST_PATH))
  const paths = manifest.files.map(({ path }) => path)
  const twice = paths.find((path, index) => paths.indexOf(path) !== index)
  return foundIn('manifest', [
    ...(again
      ? []
      : [
          statedIssue(MANIFEST_PATH, {
            expected: 'to be written as a manifest is',
            received: 'the same said otherwise',
          }),
        ]),
    ...(twice === undefined
      ? []
      : [statedIssue(MANIFEST_PATH, { expected: 'each file listed once', received: `${twice} twice` })]),
  ])
}

/** The oldest packages hold no keys and no root; of tables by another version nothing can be said. */
function comparable(
  { manifest, files }: PackageRead,
  made: ReadonlyMap<string, Uint8Array>,
): ReadonlyMap<string, Uint8Array> {
  if (manifest.tables === TABLES_VERSION) return made
  return new Map([...made].filter(([path]) => layerOf(path) !== 'tables' && files.has(path)))
}

function lookedAt({ manifest, files }: PackageRead, options: VerifyOptions): Set<Layer> {
  const looked = new Set<Layer>([
    'archive',
    'manifest',
    'files',
    'record',
    'signatures',
    'devices',
    'attachments',
    'reports',
  ])
  if (manifest.tables === TABLES_VERSION) looked.add('tables')
  if (files.has(KEYS_PATH)) looked.add('keys')
  if (files.has(TREE_PATH)) looked.add('tree')
  if (options.head !== undefined) looked.add('head')
  if ((options.receipts ?? []).length > 0) looked.add('receipt')
  return looked
}

/** What the manifest says of the record beside its head. */
function saidIssues({ manifest, entries }: PackageRead, state: InvestigationState): Issue[] {
  const title = state.brief.opened?.body.title ?? manifest.investigation
  const named = new Set([...attachmentsIn(entries), ...issuedReports(entries).map(({ body }) => body.sha256)])
  const strange = manifest.missing.filter((sha256) => !named.has(sha256))
  return [
    ...(manifest.title === title
      ? []
      : [statedIssue('manifest.json title', { expected: title, received: manifest.title })]),
    ...strange.map((sha256) =>
      statedIssue('manifest.json missing', { expected: 'files the record names', received: sha256 }),
    ),
  ]
}

function factsOf({ investigation, title, counts }: Manifest): Facts {
  return { kind: 'package', investigation, title, entries: counts.entries, pictures: counts.attachments }
}

function headOf(links: readonly Link[]): string {
  const last = links.at(-1)
  return last === undefined ? '' : `${last.sequence}:${last.hash}`
}
