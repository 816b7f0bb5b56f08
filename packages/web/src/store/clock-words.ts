const S_PER_MINUTE = 60
const S_PER_HOUR = 3600
const S_PER_DAY = 86_400

/** How far a clock is off, in words; nothing where it is right. */
export function clockWords(aheadS: number): string {
  const off = Math.abs(aheadS)
  if (off < S_PER_MINUTE) return ''
  return `This device’s clock is ${durationWords(off)} ${aheadS > 0 ? 'ahead' : 'behind'}`
}

function durationWords(seconds: number): string {
  if (seconds < S_PER_HOUR) return `${Math.round(seconds / S_PER_MINUTE)} min`
  const days = Math.floor(seconds / S_PER_DAY)
  const hours = Math.floor((seconds % S_PER_DAY) / S_PER_HOUR)
  const minutes = Math.round((seconds % S_PER_HOUR) / S_PER_MINUTE)
  if (days > 0) return hours === 0 ? `${days} d` : `${days} d ${hours} h`
  return minutes === 0 ? `${hours} h` : `${hours} h ${minutes} min`
}
