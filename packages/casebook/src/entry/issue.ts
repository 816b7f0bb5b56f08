// Issues are the same everywhere; they are written in the lowest room, where the calculations need them too.
export { type Issue, issue, issueLine, statedIssue } from '@rillmark/science/catalogue/issue.ts'
