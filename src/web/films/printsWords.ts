/** What the page of films says of ink that dries, of measured tints and of the proof, in English. */
export const PRINTS_WORDS = {
  leadHeavy: ' There is more ink at one place than dries.',
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
  proof: {
    title: 'The print at true size',
    unfold: 'See the print at true size, beside the artwork',
    fold: 'Fold the true size away',
    shows: 'You see ',
    view: 'What is shown at true size',
    views: {
      both: 'artwork left, print right',
      print: 'the print',
      artwork: 'the artwork',
    },
    at: (width: string, height: string): string =>
      `, ${width} by ${height}, as large as it will be.`,
    half: 'Where the artwork ends and the print begins',
    halfAt: (percent: string): string => `artwork as far as ${percent} of the width`,
    pan: 'The print at true size: arrows move it',
    picture: (width: string, height: string): string =>
      `Artwork and print at true size, ${width} by ${height}`,
    stated:
      'The size is as this device states it, and few screens keep to that: nobody has measured this one yet.',
    measured: 'The size is as somebody measured this screen with a card.',
    measure: 'Measure this screen',
    card: 'Hold a bank or library card flat against the screen and pull until the frame is as large as the card. By ruler: the frame is 85.6 mm wide.',
    cardFrame: 'Frame of a card, 85.6 by 54 mm',
    cardSlider: 'How large the frame is',
    cardIs: (pixels: string): string => `${pixels} pixels wide`,
    fits: 'It fits: keep it on this device',
    asStated: 'Take what the device states',
    estimate:
      'Colours of inks on each other are estimates, and a screen shines where paper does not: pull a proof before the edition.',
    pdf: 'The proof as a page at true size (PDF)',
    pdfSays: 'Of the films that were made. Print it at 100 %: the bar below it is 50 mm long.',
    pdfLater: 'Once the films are made, there is a page at true size to print.',
  },
  takes: {
    own: 'Part by its own colour again',
    is: 'It stands for another colour of the artwork than it is printed in.',
  },
} as const
