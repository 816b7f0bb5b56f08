/** The symbols the app prints and reads: sample labels carry a Data Matrix, invitations a QR code. */
export type ScanFormat = 'data_matrix' | 'qr_code'

/** Finds symbols in a picture and says what stands in them. */
export interface Detector {
  readonly detect: (picture: HTMLVideoElement) => Promise<readonly { readonly rawValue: string }[]>
}

/** What a browser that reads symbols by itself offers under this name. */
interface BuiltIn {
  new (options: { formats: readonly string[] }): Detector
  getSupportedFormats: () => Promise<readonly string[]>
}

/** The browser's own reader where it knows every symbol asked for; else the one that comes with the app, fetched now. */
export async function openDetector(formats: readonly ScanFormat[]): Promise<Detector> {
  const own: BuiltIn | undefined = Reflect.get(globalThis, 'BarcodeDetector')
  if (own !== undefined) {
    const known = await own.getSupportedFormats().catch((): readonly string[] => [])
    if (formats.every((format) => known.includes(format))) return new own({ formats })
  }
  const { ourDetector } = await import('./our-detector.ts')
  return ourDetector(formats)
}
