/**
 * What laboratories write in place of a number, in several languages. The first pattern that fits decides, so the more special
 * statements stand above the plainer ones ("not interpretable" above "not detected"). Common words of the trade, no source.
 */
const RESULT_WORDS = [
  [
    'overgrown',
    /overgrow|interfering|interferent|überwuchert|überwachsen|ueberwuchert|begleitflora|flore interf|envahi|not interpretable|non[- ]interpr|nicht auswertbar|uninterpretable|interferiert|sovracresc|overwoekerd/iu,
  ],
  [
    'broken',
    /^(?:broken|bottle broken|zerbrochen|bruch|cass[ée]e?|bris[ée]e?|rott[oa]|rot[oa]|gebroken|leaked|leaking|ausgelaufen)/iu,
  ],
  [
    'not-tested',
    /^(?:not (?:tested|done|analy[sz]ed|examined|performed|received)|nicht (?:untersucht|analysiert|bestimmt)|non (?:analys[ée]|test[ée]|effectu[ée]|eseguito)|no (?:analizad|realizad)|niet (?:onderzocht|bepaald)|insufficient|cancell?ed|n\.?\s?t\.?$|n\.?\s?b\.?$)/iu,
  ],
  [
    'too many',
    /^(?:tntc|too numerous|uncountable|innumerable|nicht zählbar|rasen$|confluent|indénombrable|incontable)/iu,
  ],
  [
    'under the limit',
    /^(?:[<≤]\s*(?:lod|loq|mdl|ldq|ldd|bg|ng)\b|lod$|loq$|bdl$|bql$|below (?:the )?(?:limit|lod|loq|detection)|under (?:the )?(?:limit|detection)|unter (?:der )?(?:nachweis|bestimmungs)grenze|kleiner (?:nachweis|bestimmungs)grenze|inférieur à la limite|< ?(?:limit|seuil))/iu,
  ],
  [
    'not-detected',
    /^(?:not detect|nd$|n\.\s?d\.?$|n\/d$|n\.?\s?n\.?$|non[- ]?d[ée]tect|none detected|not found|negativ|n[ée]gati[fv]|neg\.?$|absen[tc]|absence|assent[ei]|ausente|ausencia|nicht nachweis|nicht nachgewiesen|nicht gefunden|no detecta|non rileva|niet aan(?:toonbaar|getoond)|niet gevonden|keine? legionell)/iu,
  ],
  [
    'detected',
    /^(?:detected|positi[vf]|pos\.?$|presen[tc]|présen[tc]|nachgewiesen|nachweisbar|d[ée]tect[ée]|detectad|rilevat|aangetoond|found)/iu,
  ],
] as const

export type ResultWord = (typeof RESULT_WORDS)[number][0]

export function resultWord(text: string): ResultWord | undefined {
  return RESULT_WORDS.find(([, pattern]) => pattern.test(text))?.[0]
}

/** A sign or word for "less than" or "more than" before a value, and the value behind it. */
export function comparatorOf(text: string): { sign: '<' | '>'; rest: string } | undefined {
  const less =
    /^(?:<=?|≤|less than|under|below|kleiner(?: als)?|unter|weniger als|moins de|inférieur[e]? à|menos de|meno di|inferiore a|minder dan)\s*(?=\d)/iu.exec(
      text,
    )
  if (less !== null) return { sign: '<', rest: text.slice(less[0].length) }
  const more =
    /^(?:>=?|≥|more than|over|above|größer(?: als)?|über|mehr als|plus de|supérieur[e]? à|más de|più di|superiore a|meer dan)\s*(?=\d)/iu.exec(
      text,
    )
  return more === null ? undefined : { sign: '>', rest: text.slice(more[0].length) }
}
