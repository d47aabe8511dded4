/** What the page of films says of ink that dries, of measured tints and of the proof, in English. */
export const PRINTS_WORDS = {
  heavy: (most: string, share: string, limit: string): string =>
    `Up to ${most} of ink lies at one place, and above ${limit} on ${share} of the sheet: that does not dry before the next screen.`,
  heavyOwn: ' These plates are their maker’s: nothing of them is changed unless you say so.',
  heavyAct: (limit: string): string => ` Keep it to ${limit}.`,
  keepTo: (limit: string): string => `Keep all of it to ${limit}, with black for grey`,
  limit: {
    upTo: 'At one place at most ',
    asParted: 'At one place as much ink as its maker parted it into. ',
    keep: (percent: string): string => `Keep it to ${percent}`,
    end: ' % of ink: black takes the place of what the three colours share. ',
    usual: (percent: string): string =>
      `This shop dries ${percent}; with water-based ink 220 to 280 % is common practice, by ink and paper.`,
    letGo: 'Leave the plates as their maker parted them',
    forShop: (percent: string): string => `Keep ${percent} as this shop’s limit`,
  },
  tints: {
    none: ': nobody has measured it on this fabric with such dots yet, so they stay as they are on the film.',
    noFabric: ': choose the fabric first.',
    from: (day: string, fabric: string, dots: string): string =>
      `, measured ${day} on ${fabric} ${dots}`,
    ruled: (perCm: string): string => `at ${perCm} lines per cm`,
    scattered: (mm: string): string => `in scattered dots of ${mm} mm`,
    pair: (film: string, print: string): string => `${film} as ${print}`,
    end: '. The films are made lighter by that.',
    keep: 'Keep these for this shop',
    strike: 'Strike these out',
    kept: 'The next plan with this ink, fabric and ruling uses them by itself.',
    says: (day: string): string => ` Tints as measured ${day}.`,
    usual: ' Tints as is usual.',
    own: ' Tints as measured for this artwork.',
  },
  takes: {
    own: 'Part by its own colour again',
    is: 'It stands for another colour of the artwork than it is printed in.',
  },
} as const
