/** What the pages say, in English. Numbers come in already written for people. */
export const CLOTH_WORDS = {
  tooLittle: 'too little: washes away',
  tooMuch: 'too much: fills in',
  dose: 'Dose',
  doseIs: (value: string, unit: string): string => `${value} ${unit}`,
  picture: (parts: Readonly<{ value: string; low: string; high: string; unit: string }>): string =>
    `Doses from ${parts.low} to ${parts.high} ${parts.unit} on a cloth: threads along are marks ` +
    `that stay open, threads across are ground that holds. The bar stands at ${parts.value}.`,
} as const
