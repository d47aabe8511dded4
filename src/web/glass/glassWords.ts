/** What the small drawing of the glass says, in English. Numbers come in already written. */
export const GLASS_WORDS = {
  alt: (place: string): string =>
    `The glass from above, its front at the bottom. It lies ${place}.`,
  middle: 'in the middle',
  at: (x: string, y: string, unit: string): string =>
    `${x} from the left, ${y} ${unit} from the front`,
  how: 'Tap where its middle lies. The front of the glass is at the bottom.',
  x: 'from the left',
  y: 'from the front',
  units: { metric: 'mm', imperial: 'in' },
  share: (hundredths: string): string =>
    `There the glass has ${hundredths} for 100 in its middle, as its wedges told.`,
  toMiddle: 'Back to the middle',
  working: 'Fetching the glass …',
  unmeasured: 'Nobody has laid wedges on this glass yet, so all of it counts alike.',
  measure: 'How even is the light?',
  wrong: (written: string, most: string): string =>
    `That must be a length on the glass, up to ${most}. You wrote “${written}”.`,
} as const
