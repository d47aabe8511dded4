/** Where a screen can be, as the register says it. */
export type ScreenIs = 'clean' | 'coated' | 'exposed' | 'in print' | 'to reclaim' | 'torn' | 'lost'

/** What a screen waits for. */
export type ScreenNext =
  | 'coat it'
  | 'let it dry'
  | 'expose it'
  | 'the coat is too old'
  | 'print it'
  | 'finish the print'
  | 'reclaim it'
  | 'stretch new fabric'
  | 'find it'

/** What decides it: moments in ms; null where nobody said. */
export type ScreenFacts = Readonly<{
  is: ScreenIs
  dryMs: number | null
  goodUntilMs: number | null
}>

/** The one thing to do next with a screen. */
export function screenNext({ is, dryMs, goodUntilMs }: ScreenFacts, nowMs: number): ScreenNext {
  switch (is) {
    case 'clean':
      return 'coat it'
    case 'coated':
      if (goodUntilMs !== null && goodUntilMs < nowMs) return 'the coat is too old'
      return dryMs !== null && dryMs > nowMs ? 'let it dry' : 'expose it'
    case 'exposed':
      return 'print it'
    case 'in print':
      return 'finish the print'
    case 'to reclaim':
      return 'reclaim it'
    case 'torn':
      return 'stretch new fabric'
    case 'lost':
      return 'find it'
  }
}
