import { PLAN_BYTES_AT_MOST, planFromJson } from '../../workflow/makeFilms/readPlan.ts'
import { FORCE_SWITCH, type Option, type Place } from '../arguments.ts'
import type { Command } from '../command.ts'
import { columns, figures, percent } from '../figures.ts'
import { type FilmsRecord, writeFilms } from '../filmsFolder.ts'
import { path } from '../reads.ts'
import { readTextFile } from '../textFile.ts'

const ARTWORK: Place<string> = {
  name: 'ARTWORK',
  about: 'the picture: PNG, JPEG, TIFF, WebP, SVG, PDF or OpenRaster',
  needed: true,
  reads: path({ what: 'artwork', shown: 'ARTWORK' }),
}

const PLAN: Option<string> = {
  name: 'plan',
  about: 'what films are wanted, as JSON: size, inks, mode, halftone, marks',
  needed: true,
  reads: path({ what: 'plan', shown: 'P.json' }),
}

const OUT: Option<string> = {
  name: 'out',
  about: 'the folder for the films, films.json and proof.png; made where it is not there',
  needed: true,
  reads: path({ what: 'folder', shown: 'DIR' }),
}

export const films: Command = {
  name: 'films',
  summary: 'film positives of digital artwork: a true-size PDF and a 1-bit TIFF for each ink',
  places: [ARTWORK],
  options: [PLAN, OUT, FORCE_SWITCH],
  notes: [
    'A plan: {"widthMm":200,"mode":"line","inks":[{"name":"red","lab":[52,68,48],"opacity":0.9}]}. mode is line (flat colours), single (one ink, 1 - grey value), process (cyan, magenta, yellow, black) or spot (tones of chosen inks).',
    'Size: widthMm, heightMm, or scale of what the artwork states. "resolutionDpi":720. "halftone": {"kind":"dot","shape":"round"|"elliptical"|"line","rulingPerCm":18,"angleDeg":22.5}, counter-clockwise, an ink\'s own "angleDeg" before it; or {"kind":"stochastic","seed":7,"dotUm":100}. "chokeUm" or "spreadUm" move each edge, an ink\'s own before it. In modes line and spot an ink\'s "takes":[[L,a,b]] are the colours of the artwork that become it. In mode spot "limits":{"coverage":2.4,"inks":3} is what may lie at one place; in mode process "limits":{"coverage":2.4} puts black in the place of grey until no more ink lies there. In mode spot a last ink with "highlightsFrom":0.85 is printed where the artwork is lighter. "underbase":{"chokeUm":150}. "paper":[L,a,b] is the stock in the proof. An ink\'s "tones":{"least":0.05,"most":0.9} are those that its fabric holds; others go to the nearest, or to none or solid, and with "beyond":"scatter" are made of scattered dots. "fabric":"90-48" finds them by itself and scatters. "printed":[[0.25,0.36],[0.5,0.65]] or "usual" is what an ink\'s tones on the film print as. "marks":{"registration":true,"label":true,"scaleBar":true,"stepStrip":true}. "sheet":{"widthMm","heightMm","overlapMm","cutMarks":true} parts the PDF, with lines to cut at, and with "nest":true small films of all inks lie side by side in one; the TIFF stays whole. "format":["pdf","tiff"].',
    'Print the films at full size, black, and measure the scale bar with a ruler. Colours of the proof are estimates.',
  ],
  example: {
    line: 'films docs/example/poster.svg --plan docs/example/plan.json --out films',
    prints: [
      '3 films of 146.4 x 149.1 mm, and proof.png.',
      'yellow  70.0 % covered: 1-yellow.pdf, 1-yellow.tif',
      'red     13.1 % covered: 2-red.pdf, 2-red.tif',
      'black   8.6 % covered: 3-black.pdf, 3-black.tif',
    ].join('\n'),
  },
  run: async (given, io) => {
    const plan = planFromJson(
      await readTextFile(given.needs(PLAN), {
        what: 'plan',
        field: PLAN.name,
        mostBytes: PLAN_BYTES_AT_MOST,
      }),
    )
    const record = await writeFilms(plan, {
      artwork: given.needs(ARTWORK),
      planFile: given.needs(PLAN),
      folder: given.needs(OUT),
      force: given.has(FORCE_SWITCH),
      stderr: io.stderr,
    })
    return { record, text: filmsText(record) }
  },
}

function filmsText({ films: made, widthMm, heightMm }: FilmsRecord): string {
  const size = `${figures(widthMm, 4)} x ${figures(heightMm, 4)} mm`
  const rows = made.map(({ ink, pdf, tiff, coverageShare }) => {
    const files = [pdf, tiff].filter((file) => file !== null).join(', ')
    return [ink, `${percent(coverageShare)} covered: ${files}`] as const
  })
  const count = made.length === 1 ? 'One film' : `${made.length} films`
  return [`${count} of ${size}, and proof.png.`, columns(rows)].join('\n')
}
