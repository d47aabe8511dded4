/** What the page of the table behind “Why did it fail?” says. */
export const TABLE_WORDS = {
  lead: 'The table behind “Why did it fail?”. A cause opens to its signs. Figures are judged until something is confirmed here; yours stand over them.',
  fetching: 'Fetching the table …',
  learned: (count: number): string =>
    count === 0
      ? 'Nothing has been confirmed here yet.'
      : `${count === 1 ? 'One failure' : `${count} failures`} of this shop moved the figures.`,
  causeLine: (says: string, share: number): string =>
    `${says}: about ${inHundred(share)} of 100 failures`,
  unusedLine: (says: string): string => `${says}: does not happen here`,
  confirmed: (count: number): string => (count === 0 ? '' : `, ${count} confirmed`),
  yours: ', your own word',
  now: (says: string): string => `Now: ${says}`,
  next: (says: string): string => `Next time: ${says}`,
  linksLead: 'Of 100 such failures so many show:',
  link: (chance: number, says: string): string => `${inHundred(chance)}: ${says}`,
  seen: ' Seen here.',
  moved: (was: number): string => ` The table said ${inHundred(was)}.`,
  none: 'No sign goes with it yet, so it can never come first: say how often it shows what.',
  changeCause: 'Change it',
  changeLink: 'How often it shows a sign',
  back: 'Take your own word back',
  addCause: 'Another cause',
  addSign: 'Another sign',
  says: 'What it is',
  share: 'Of 100 failures here',
  nowEntry: 'What to do now',
  nextEntry: 'What to do next time',
  isUsed: 'It happens here',
  isSeen: 'We saw it ourselves: it weighs three times as much',
  sign: 'Sign',
  whichSign: 'which sign',
  chance: 'Of 100 such failures show it',
  signSays: 'What one sees or knows',
  where: 'Where',
  elsewhere: 'Of 100 failures of other causes show it',
  how: 'How to find out, if it takes a test',
  minutes: 'Minutes that takes',
  keep: 'Keep it',
  leave: 'Leave it as it is',
  wrong: {
    text: 'Write it in a sentence.',
    figure: 'A number from 0.1 to 99.9, like 5.',
    minutes: 'A number of minutes from 1 to 1440, like 20.',
    sign: 'Choose a sign first.',
  },
  linkFailure: 'Why did it fail?',
  caution: 'What it says to do replaces no manual and no safety data sheet.',
} as const

/** A chance as so many of 100. */
function inHundred(chance: number): string {
  const value = chance * 100
  return value < 1 ? 'fewer than 1' : String(Math.round(value))
}
