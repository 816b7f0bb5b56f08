// The house rules, held against every file of the project. docs/contributing.md says why each exists.
import { expect, test } from 'vitest'
import { overBudget, strayTests } from './tidy/budgets.ts'
import { undeclaredImports, unexplainedDependencies, unusedDependencies } from './tidy/dependencies.ts'
import { isScript, isTest, projectPaths, readProjectFiles } from './tidy/files.ts'
import { describeFindings, type Finding } from './tidy/finding.ts'
import { impurities } from './tidy/purity.ts'
import { deadLinks } from './tidy/links.ts'
import { barrels, circularFolders, circularImports, wrongWayImports } from './tidy/rooms.ts'
import { unsourced } from './tidy/sources.ts'
import { switchedTests, unmatchedRules } from './tidy/specs.ts'
import { parseSource, type Source } from './tidy/syntax.ts'
import { workplaceTraces } from './tidy/workplace.ts'

const paths = projectPaths()
const files = readProjectFiles(paths)
const sources = files.filter((file) => isScript(file.path)).map(parseSource)
const named = (name: string) => files.filter((file) => file.path === name || file.path.endsWith(`/${name}`))
/** Contract suites are tests as well: they use vitest and are called by the tests of each implementation. */
const isTestCode = ({ path, imports }: Source) => isTest(path) || imports.some((each) => each.specifier === 'vitest')
const within = (folder: string) => sources.filter((source) => source.path.startsWith(folder) && !isTestCode(source))

type Rule = { readonly rule: string; readonly find: () => Finding[] }

const RULES: readonly Rule[] = [
  { rule: 'the rooms import each other one way only', find: () => wrongWayImports(sources) },
  { rule: 'no file imports itself through others', find: () => circularImports(sources) },
  {
    rule: 'the folders of the server lie one above the other',
    find: () => circularFolders(within('packages/server/src/').filter(({ path }) => !path.includes('.fixture.'))),
  },
  { rule: 'an import names the file it means', find: () => barrels(sources) },
  {
    rule: 'science and casebook read no clock, chance, locale, console, network or file',
    find: () => impurities([...within('packages/science/src/'), ...within('packages/casebook/src/')]),
  },
  { rule: 'files, functions, parameter lists and folders keep to their budgets', find: () => overBudget(sources) },
  { rule: 'tests sit beside what they test', find: () => strayTests(paths) },
  { rule: 'no test is singled out, skipped or left to do', find: () => switchedTests(sources) },
  {
    rule: 'every written rule has a test, every named rule is written',
    find: () => unmatchedRules(named('SPEC.md'), sources),
  },
  {
    rule: 'every exported function of science names its source',
    find: () => unsourced(within('packages/science/src/')),
  },
  { rule: 'nothing names the machine or registry it was written on', find: () => workplaceTraces(files) },
  {
    rule: 'links between pages lead somewhere',
    find: () =>
      deadLinks(
        files.filter((file) => file.path.endsWith('.md')),
        paths,
      ),
  },
  {
    rule: 'every library has one line of reason',
    find: () => unexplainedDependencies(named('package.json'), named('docs/dependencies.md')[0]?.text ?? ''),
  },
  {
    rule: 'what is imported is declared beside it, what a room declares is imported',
    find: () => {
      const manifests = named('package.json')
      return [...undeclaredImports(sources, manifests), ...unusedDependencies(manifests, files)]
    },
  },
]

test.each(RULES)('$rule', ({ find }) => {
  expect(describeFindings(find())).toBe('')
})
