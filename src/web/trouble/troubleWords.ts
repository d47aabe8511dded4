/** What the page of failures says. */
export const TROUBLE_WORDS = {
  fetching: 'Looking through what is known …',
  run: 'Exposure',
  of: 'The exposure:',
  anyRun: 'not one of these',
  lead: 'Touch what you see. More than one is better.',
  where: {
    'at the sink': 'At the sink',
    'against the light': 'Held to the light',
    'at the press': 'At the press',
    'at reclaim': 'At reclaiming',
    known: 'How it was made',
  },
  picture: (says: string): string => `Drawn by the forecast: ${says.toLowerCase()}`,
  nothing: 'The causes will stand here, the likeliest first.',
  inTen: (count: number): string => (count < 1 ? 'less than 1 in 10' : `about ${count} in 10`),
  now: 'Now: ',
  next: 'Next time: ',
  because: (signs: string): string => `It fits: ${signs}`,
  against: (signs: string): string => `It does not fit: ${signs}`,
  test: 'What tells the first two apart',
  minutes: (minutes: number): string => (minutes === 1 ? 'One minute. ' : `${minutes} minutes. `),
  tells: (yes: string, no: string): string => `Yes speaks for “${yes}”, no for “${no}”.`,
  yes: 'Yes',
  no: 'No',
  noTest: 'No quick test tells the first two apart: do what the first one asks, and look again.',
  told: 'What the shop knows',
  toldMore: 'From its own records; say so where it is not so.',
  notSo: 'Not so',
  out: 'Was it found out?',
  outMore: 'Then the table learns of it.',
  itWas: 'It was',
  takeDown: 'Take it down, cause not known',
  confirm: 'It was this',
  cause: 'Cause',
  which: 'which cause',
  taken: 'Taken down. Thank you: the table is surer now.',
  takenOpen: 'Taken down. Say what it was once somebody knows.',
  learned: (count: number): string =>
    count === 0
      ? 'Shares and links of the table are judged; nothing has been confirmed here yet.'
      : `${count === 1 ? 'One failure' : `${count} failures`} of this shop moved the table.`,
  limits:
    'Signs hang together, so go by the order more than by the figures. Manuals and safety data sheets come first.',
  past: 'Failures before',
  pastLine: (on: string, guessed: string, cause: string | null): string =>
    cause === null ? `${on}: ${guessed}, it was thought.` : `${on}: ${cause}.`,
} as const
