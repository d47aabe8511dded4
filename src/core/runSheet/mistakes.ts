/** The ten mistakes that lose screens, in the order in which they are usually made. */
export const MISTAKES = [
  'not dry',
  'thin or wrong-sided coat',
  'dust under the film',
  'film flipped',
  'weak marks',
  'film moved, near the frame, wrong fabric',
  'no vacuum',
  'wrong dose',
  'rushed washout',
  'left wet',
] as const

/** Something that loses a screen, and that a check at the right step catches. */
export type Mistake = (typeof MISTAKES)[number]
