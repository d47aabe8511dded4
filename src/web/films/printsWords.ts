/** What the page of films says of ink that dries, of measured tints and of the proof, in English. */
export const PRINTS_WORDS = {
  leadHeavy: ' There is more ink at one place than dries.',
  heavy: (most: string, share: string, limit: string): string =>
    `Up to ${most} of ink lie on each other (one solid is 100 %), and more than ${limit} on ${share} of the sheet: that does not dry before the next screen.`,
  heavyOwn:
    ' The file came parted into its four inks, so it stays as it is until you change it here.',
  heavyAct: (limit: string): string => ` Keep it to ${limit}.`,
  keepTo: (limit: string): string => `Keep all of it to ${limit}, with black for grey`,
  keepChosenTo: (limit: string): string => `Keep all of it to ${limit}`,
  limit: {
    upTo: 'At one place at most ',
    asParted: 'As much ink at one place as the file has. ',
    keep: (percent: string): string => `Keep it to ${percent}`,
    end: ' % of ink (one solid is 100 %): where it would be more, black is printed for the grey that cyan, magenta and yellow make. ',
    usual: (percent: string): string =>
      `This shop’s limit is ${percent}. With water-based ink 220 to 280 % is common practice, by ink and paper.`,
    letGo: 'Leave it as the file has it',
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
      'Few devices know how large their screen is: measure this one with a card first, or the size is a guess.',
    measured: 'This screen was measured with a card.',
    measure: 'Measure this screen',
    card: 'Hold a bank or library card flat against the screen and pull until the frame is as large as the card. By ruler: the frame is 85.6 mm wide.',
    cardFrame: 'Frame of a card, 85.6 by 54 mm',
    cardSlider: 'How large the frame is',
    cardIs: (pixels: string): string => `${pixels} pixels wide`,
    fits: 'It fits: keep it on this device',
    asStated: 'Take what the device states',
    estimate:
      'Where inks lie on each other their colour is a guess, and a screen shines where paper does not: pull a proof before the edition.',
    pdf: 'The proof as a page at true size (PDF)',
    pdfSays: 'Of the films that were made. Print it at 100 %: the bar below it is 50 mm long.',
    pdfLater: 'Once the films are made, there is a page at true size to print.',
  },
  takes: {
    own: 'Part by its own colour again',
    is: 'It stands for another colour of the artwork than it is printed in.',
  },
} as const
