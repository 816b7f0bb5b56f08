/** A picture of one grey pixel: PNG signature, IHDR, IDAT, IEND (PNG specification, from memory; the browser draws it). */
export const TINY_PNG = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAAAAAA6fptVAAAACklEQVR4nGNoAAAAggCBd81ytgAAAABJRU5ErkJggg==',
  'base64',
)
