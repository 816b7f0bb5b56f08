/** The lines of a text that arrives in pieces, each as soon as its end is there. The next piece is asked for when all lines before it are used. */
export async function* linesOf(chunks: AsyncIterable<Uint8Array>): AsyncGenerator<string> {
  const decoder = new TextDecoder('utf-8', { ignoreBOM: true })
  /** What has come of a line so far: a line of many pieces is put together once. */
  let begun: string[] = []
  for await (const chunk of chunks) {
    const [first = '', ...more] = decoder.decode(chunk, { stream: true }).split('\n')
    begun.push(first)
    for (const next of more) {
      yield withoutReturn(begun.join(''))
      begun = [next]
    }
  }
  const last = begun.join('') + decoder.decode()
  if (last !== '') yield withoutReturn(last)
}

function withoutReturn(line: string): string {
  return line.endsWith('\r') ? line.slice(0, -1) : line
}
