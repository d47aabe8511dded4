import { type Random, randomFrom } from './random.ts'

/** Artwork made by seeded code, as a drawing in millimetres: a heron under a moon, at the water. Demo. */
export const NIGHT_HERON = {
  name: 'Night heron',
  fileName: 'Night heron (demo).svg',
  widthMm: 400,
  heightMm: 280,
  seed: 2207,
} as const

const [WIDE, HIGH] = [NIGHT_HERON.widthMm, NIGHT_HERON.heightMm]
const WATER_TOP = 188

/** The drawing: its moon and its water have tones, all that is black is flat. */
export function nightHeronSvg(): string {
  const random = randomFrom(NIGHT_HERON.seed)
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDE}mm" height="${HIGH}mm" viewBox="0 0 ${WIDE} ${HIGH}">`,
    '<!-- A demo drawing of the invented Quillfield Print Room. -->',
    '<defs>',
    '<linearGradient id="moon" x1="0" y1="0" x2="0" y2="1"><stop offset="0" stop-color="#f0c23c"/><stop offset="0.55" stop-color="#f3cf6a"/><stop offset="1" stop-color="#fdf6df"/></linearGradient>',
    `<linearGradient id="water" x1="0" y1="0" x2="0" y2="1"><stop offset="0" stop-color="#ffffff"/><stop offset="0.25" stop-color="#dce9e6"/><stop offset="1" stop-color="#2f7d7c"/></linearGradient>`,
    '</defs>',
    `<rect width="${WIDE}" height="${HIGH}" fill="#ffffff"/>`,
    '<circle cx="196" cy="104" r="72" fill="url(#moon)"/>',
    `<path d="M18 ${WATER_TOP}q40-5 92-2t98-1 88 3 86-1V268H18z" fill="url(#water)"/>`,
    `<g fill="#1a1917">${HERON}${reeds(random, { left: 24, right: 118, count: 34 })}${reeds(random, { left: 286, right: 380, count: 28 })}${ripples(random)}</g>`,
    '</svg>',
  ].join('\n')
}

/** Bill, head, neck, body and legs, standing in the water. */
const HERON =
  '<path d="M104 96l52-13q10-6 20 0 12 8 9 22-3 13-14 23-8 8-6 17 10-9 27-6 26 6 44 33 12 20 34 34l-22-6q-16-2-34-12-26-14-40-24-16-12-17-30-1-15 10-27 9-10 5-17-5-4-14 1-22 5-54 5z"/>' +
  '<path d="M196 174l3 0-3 70 6 6-1 2-9-7zM214 186l3 0-1 54 7 6-1 2-10-7z"/>' +
  '<path d="M176 84q14-9 34 4-18-4-34 2z"/>'

function reeds(
  random: Random,
  { left, right, count }: Readonly<{ left: number; right: number; count: number }>,
): string {
  return Array.from({ length: count }, (_, at) => {
    const x = random.between(left, right)
    const foot = random.between(WATER_TOP + 4, WATER_TOP + 42)
    const height = random.between(46, 128)
    const lean = random.around(0, 14)
    const half = random.between(0.35, 1.3)
    const top = foot - height
    const blade = `<path d="M${mm(x - half)} ${mm(foot)}Q${mm(x + lean * 0.2)} ${mm(foot - height * 0.6)} ${mm(x + lean)} ${mm(top)}Q${mm(x + lean * 0.3 + half)} ${mm(foot - height * 0.55)} ${mm(x + half)} ${mm(foot)}z"/>`
    if (at % 6 !== 0) return blade
    return `${blade}<ellipse cx="${mm(x + lean)}" cy="${mm(top)}" rx="2.1" ry="9" transform="rotate(${mm(lean / 2)} ${mm(x + lean)} ${mm(top)})"/>`
  }).join('')
}

/** Fine lines on the water, down to 0.18 mm. */
function ripples(random: Random): string {
  return Array.from({ length: 26 }, (_, at) => {
    const y = WATER_TOP + 16 + at * 2.3
    const x = random.between(60, 290)
    const wide = random.between(16, 70)
    const high = 0.18 + 0.05 * (at % 9)
    return `<path d="M${mm(x)} ${mm(y)}q${mm(wide / 2)} ${mm(-high)} ${mm(wide)} 0q${mm(-wide / 2)} ${mm(high)} ${mm(-wide)} 0z"/>`
  }).join('')
}

function mm(value: number): string {
  return String(Math.round(100 * value) / 100)
}
