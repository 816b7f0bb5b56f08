import type { Receipt } from '@rillmark/casebook/receipt/receipt.ts'
import { prettyJson } from '../package/derived-files.ts'

/** A receipt as the file somebody keeps. */
export function receiptJson(receipt: Receipt): string {
  return prettyJson(receipt)
}
