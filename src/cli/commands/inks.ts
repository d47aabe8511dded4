import { type InkChoice, inkChoices, worthwhileChoice } from '../../core/separation/inkChoice.ts'
import { paletteOf } from '../../core/separation/palette.ts'
import { STOCK_BYTES_AT_MOST, stockFromJson } from '../../workflow/makeFilms/readStock.ts'
import type { Option, Place } from '../arguments.ts'
import type { Command } from '../command.ts'
import { columns, figures } from '../figures.ts'
import { numberIn, oneOf, path } from '../reads.ts'
import { readTextFile } from '../textFile.ts'

const ARTWORK: Place<string> = {
  name: 'ARTWORK',
  about: 'the picture: PNG, JPEG, TIFF, WebP, SVG, PDF or OpenRaster',
  needed: true,
  reads: path({ what: 'artwork', shown: 'ARTWORK' }),
}

const STOCK: Option<string> = {
  name: 'stock',
  about: 'the inks that there are, as JSON: name, lab, opacity; and the paper',
  needed: true,
  reads: path({ what: 'stock', shown: 'S.json' }),
}

const MOST: Option<number> = {
  name: 'most',
  about: 'the most inks to print; 4 unless given',
  needed: false,
  reads: numberIn(
    { name: 'most', low: 1, high: 6, unit: 'inks', whole: true },
    { what: 'most inks', units: 'inks', like: 4, shown: 'K' },
  ),
}

const MODES = ['line', 'spot'] as const
const MODE: Option<(typeof MODES)[number]> = {
  name: 'mode',
  about: 'line for flat colours, spot for tones on each other; line unless given',
  needed: false,
  reads: oneOf(MODES, { what: 'mode', shown: 'line|spot' }),
}

/** Colours are looked at on a small picture, and so many of them. */
const LONGER_SIDE_PX = 300
const COLOURS = 24

export const inks: Command = {
  name: 'inks',
  summary: 'which inks of a stock print an artwork nearest, and how many are worth it',
  places: [ARTWORK],
  options: [STOCK, MOST, MODE],
  notes: [
    'A difference below 2 is hard to see; one of 5 is plain. Colours of inks on each other are estimates.',
    'A stock: {"inks":[{"name":"red","lab":[46,53,38],"opacity":0.7}],"paper":[96,0,3]}.',
  ],
  example: {
    line: 'inks docs/example/poster.svg --stock docs/example/stock.json',
    prints: [
      'yellow                     differs by 13, at worst 75',
      'yellow, red                differs by 4.3, at worst 38',
      'yellow, red, black         differs by 1.1, at worst 3.7 *',
      'yellow, ochre, red, black  differs by 1.1, at worst 3.7',
      '* worth its inks: one more brings the print hardly nearer.',
    ].join('\n'),
  },
  run: async (given, io) => {
    const text = await readTextFile(given.needs(STOCK), {
      what: 'stock',
      field: STOCK.name,
      mostBytes: STOCK_BYTES_AT_MOST,
    })
    const { inks: stock, paper } = stockFromJson(text)
    const rgb = await smallPicture(given.needs(ARTWORK), (warning) =>
      io.stderr.write(`Warning: ${warning}\n`),
    )
    const choices = inkChoices(paletteOf(rgb, { count: COLOURS }), {
      stock,
      most: given.of(MOST) ?? 4,
      mode: given.of(MODE) ?? 'line',
      ...(paper === null ? {} : { paper }),
    })
    const worthwhile = worthwhileChoice(choices)
    const record = {
      kind: 'inks',
      choices: choices.map(({ inks: chosen, meanDifference, worstDifference }) => ({
        inks: chosen.map(({ name }) => name),
        meanDifference,
        worstDifference,
      })),
      worthwhile: worthwhile?.inks.length ?? 0,
    }
    return { record, text: inksText(choices, worthwhile) }
  },
}

/** Artwork as a few pixels of sRGB. */
async function smallPicture(
  artworkPath: string,
  warn: (warning: string) => void,
): Promise<Uint8Array> {
  const { openArtwork } = await import('../../decode/artwork.ts')
  const opened = await openArtwork(artworkPath)
  try {
    opened.warnings.forEach(warn)
    const { proportion } = opened
    const side = (share: number): number => Math.max(1, Math.round(LONGER_SIDE_PX * share))
    const artwork = await opened.samples({
      widthPx: side(Math.min(1, proportion)),
      heightPx: side(Math.min(1, 1 / proportion)),
      keepsCmyk: false,
      inks: [],
    })
    const parts: Uint8Array[] = []
    for await (const { samples } of artwork.bands()) parts.push(samples.slice())
    const all = Buffer.concat(parts)
    if (artwork.space !== 'grey') return all
    return Uint8Array.from({ length: 3 * all.length }, (_, at) => all[Math.floor(at / 3)] ?? 0)
  } finally {
    await opened.close()
  }
}

function inksText(choices: readonly InkChoice[], worthwhile: InkChoice | null): string {
  const rows = choices.map((choice) => {
    const { inks: chosen, meanDifference, worstDifference } = choice
    const mark = choice === worthwhile ? ' *' : ''
    const differs = `differs by ${figures(meanDifference, 2)}, at worst ${figures(worstDifference, 2)}`
    return [chosen.map(({ name }) => name).join(', '), `${differs}${mark}`] as const
  })
  return [columns(rows), '* worth its inks: one more brings the print hardly nearer.'].join('\n')
}
