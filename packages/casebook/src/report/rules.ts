import type { Rules } from '../rules/rule.ts'

export const reportRules: Rules = {}
