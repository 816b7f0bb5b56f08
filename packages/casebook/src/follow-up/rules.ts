import type { Rules } from '../rules/rule.ts'

export const followUpRules: Rules = {}
