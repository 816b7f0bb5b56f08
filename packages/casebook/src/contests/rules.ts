import type { Rules } from '../rules/rule.ts'

export const contestsRules: Rules = {}
