import type { Rules } from '../rules/rule.ts'

export const resultsRules: Rules = {}
