// A preview of films, as the page's worker makes it of a photo's 720 by 540 pixels: every part that a
// change of the plan may ask for, in CPU seconds. A person waits for the sketch of a quarter as many
// pixels; half a second on a machine half as fast is what is allowed.
import { seeded } from './films.mjs'

const SIDE = { widthPx: 720, heightPx: 540 }
const WIDTH_MM = 400
const STOCK = [
  ['yellow', [86, 2, 84], 0.2],
  ['ochre', [62, 18, 50], 0.5],
  ['red', [50, 64, 36], 0.3],
  ['green', [48, -44, 26], 0.3],
  ['blue', [36, 4, -46], 0.3],
  ['black', [17, 0, 0], 0.9],
].map(([name, lab, opacity]) => ({ name, lab, opacity, angleDeg: null }))
const FABRIC = { threadsPerCm: 90, threadUm: 48 }

const DOTS = { kind: 'dot', rulingPerCm: 18, angleDeg: 22.5, shape: 'round' }
const PLAN = {
  size: { kind: 'width', widthMm: WIDTH_MM },
  resolutionDpi: 720,
  mode: 'spot',
  inks: STOCK,
  halftone: DOTS,
  edgeUm: 0,
  underbase: null,
  marks: { registration: true, label: true, scaleBar: true, stepStrip: false },
  sheet: null,
  formats: ['pdf'],
}
const UNDER = { name: 'white', lab: [96, 0, 0], chokeUm: 200 }
const FOUR = STOCK.slice(0, 4)
const CASES = [
  { name: 'single', mode: 'single', inks: STOCK.slice(5) },
  { name: 'process', mode: 'process', inks: FOUR },
  { name: 'process, 2.4 solids', mode: 'process', inks: FOUR, limits: { coverage: 2.4, inks: 4 } },
  { name: 'line, six inks', mode: 'line' },
  { name: 'spot, three inks', inks: [STOCK[0], STOCK[2], STOCK[5]] },
  { name: 'spot, six inks' },
  { name: 'spot, six inks, four at a place', limits: { coverage: 2.4, inks: 4 } },
  { name: 'spot, six inks, white under', underbase: UNDER },
  { name: 'spot, six inks, spread 300', edgeUm: 300 },
]

export async function previewBench({ rounds = 3, report }) {
  const own = await parts()
  const small = photo(SIDE)
  const sketched = photo({ widthPx: SIDE.widthPx / 2, heightPx: SIDE.heightPx / 2 })
  const rows = []
  for (const { name, ...change } of CASES) {
    const plan = { ...PLAN, ...change }
    const [times, sketches] = [[], []]
    for (let round = 0; round < rounds; round += 1) {
      sketches.push(sum(await previewed(own, sketched, plan)))
      times.push(await previewed(own, small, plan))
    }
    const [part, plates, lay, find] = times[0].map((_, at) => median(times.map((time) => time[at])))
    rows.push({
      name,
      part,
      plates,
      lay,
      find,
      first: sum(times[0]),
      sketch: median(sketches),
    })
    report(
      `${name}: parted ${ms(part)}, plates ${ms(plates)}, laid on the table ${ms(lay)}, ` +
        `looked through ${ms(find)}; all ${ms(part + plates + lay + find)}, its sketch ${ms(rows.at(-1).sketch)}`,
    )
  }
  for (const most of [3, 6]) {
    const began = cpuSec()
    const colours = own.paletteOf(small.samples, { count: 24 })
    const choices = own.inkChoices(colours, { stock: STOCK, most, mode: 'spot' })
    const took = cpuSec() - began
    if (choices.length !== most) throw new Error(`expected ${most} choices`)
    rows.push({ name: `which of six inks, ${most} at most`, first: took })
    report(`which of six inks, ${most} at most: ${ms(took)}`)
  }
  return rows
}

async function parts() {
  const modules = await Promise.all(
    [
      '../dist/raster/films/keptTones.js',
      '../dist/workflow/makeFilms/plates.js',
      '../dist/workflow/makeFilms/previewPlates.js',
      '../dist/raster/films/filmStages.js',
      '../dist/workflow/makeFilms/previewFindings.js',
      '../dist/core/separation/palette.js',
      '../dist/core/separation/inkChoice.js',
    ].map((path) => import(path)),
  )
  return Object.assign({}, ...modules)
}

/** CPU seconds of parting, of making the plates, of laying them on the table and of looking through. */
async function previewed(own, small, plan) {
  const marks = [cpuSec()]
  const parted =
    plan.mode === 'single' ? null : await own.keptTones(own.partedInks(small, plan, { soft: true }))
  marks.push(cpuSec())
  const plates = await own.previewPlates(small, { plan, widthMm: WIDTH_MM, parted })
  marks.push(cpuSec())
  own.filmStages(plates.plates, { places: small.widthPx * small.heightPx, paper: null })
  marks.push(cpuSec())
  own.heavyFindings(plates, { plan, limit: 2.4 })
  own.previewFindings(plates, { plan, fabric: FABRIC })
  marks.push(cpuSec())
  if (plates.plates.every(({ coverageShare }) => coverageShare === 0)) throw new Error('no ink')
  return marks.slice(1).map((mark, at) => mark - marks[at])
}

/** Soft lights of all colours with a grain, six bits of each part, as the page's worker has them. */
function photo({ widthPx, heightPx }) {
  const random = seeded(7)
  const waves = Array.from({ length: 15 }, () => ({
    across: (random() - 0.5) * 0.05,
    down: (random() - 0.5) * 0.05,
    phase: 6.3 * random(),
  }))
  const samples = new Uint8Array(3 * widthPx * heightPx)
  for (let y = 0, at = 0; y < heightPx; y += 1) {
    for (let x = 0; x < widthPx; x += 1) {
      const grain = 24 * (random() - 0.5)
      for (let part = 0; part < 3; part += 1, at += 1) {
        let light = 128 + grain
        for (let wave = 0; wave < 5; wave += 1) {
          const { across, down, phase } = waves[5 * part + wave]
          light += 40 * Math.sin(across * x + down * y + phase)
        }
        const value = Math.max(0, Math.min(255, Math.round(light)))
        samples[at] = (value & 0xfc) | (value >> 6)
      }
    }
  }
  async function* bands() {
    yield { rows: heightPx, samples }
  }
  return { space: 'rgb', widthPx, heightPx, samples, bands }
}

function sum(times) {
  return times.reduce((all, time) => all + time, 0)
}

function cpuSec() {
  const { user, system } = process.cpuUsage()
  return (user + system) / 1e6
}

function median(values) {
  return values.toSorted((one, other) => one - other)[values.length >> 1]
}

function ms(sec) {
  return `${(1000 * sec).toFixed(0)} ms`
}
