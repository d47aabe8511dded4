/** What the choice of a screen says. */
export const CHOOSE_WORDS = {
  ask: 'Which screen?',
  has: (name: string): string => `${sentence(name)}, or another`,
  fetching: 'Looking through the rack …',
  noFilm: 'There is no film for this layer yet: what it wants of a screen is not known.',
  finest: (mm: string): string => `Nine in ten of its marks are ${mm} wide or wider.`,
  notKnown:
    'How wide its marks are is not known: it was read before widths were kept, or is not read yet.',
  tones: 'It has ',
  ruling: 'Lines of its halftone',
  noHalftone: 'no halftone',
  linesPerCm: ' lines a cm',
  inkLies: ', and the ink should lie ',
  ink: 'How the ink should lie',
  anyhow: 'as it will',
  inks: [
    { id: 'thin', name: 'thin' },
    { id: 'thick', name: 'thick' },
  ],
  rulingWrong: 'Write its lines a cm, from 4 to 120, like 20.',
  when: { now: 'ready', later: 'not ready yet', not: 'not to be had' },
  sign: { now: 'done', later: 'not yet', not: 'make again' },
  notBefore: (time: string): string => `Not before ${time}.`,
  rack: (slot: string): string => `rack ${slot}`,
  take: (name: string): string => `Take ${name}`,
  light: (name: string): string => `How much light on ${name}?`,
  chosen: 'This layer has it.',
  takeOff: 'Take it off',
  onTicket: (layer: string): string =>
    `The film is for layer ${layer}: the screen is chosen on its ticket.`,
  toTicket: 'Open the ticket',
  more: (count: number): string => `${count} more`,
  fewer: 'Fewer',
} as const

function sentence(name: string): string {
  return name.charAt(0).toUpperCase() + name.slice(1)
}
