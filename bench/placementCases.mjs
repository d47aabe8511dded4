/** A seeded stream of numbers from 0 to 1 (mulberry32). */
function drawnFrom(seed) {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let t = Math.imul(state ^ (state >>> 15), state | 1)
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61)
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32
  }
}

const SHEETS = [
  [105, 148],
  [148, 210],
  [210, 297],
  [100, 150],
  [130, 180],
  [180, 240],
  [200, 200],
  [60, 200],
  [297, 420],
  [240, 300],
]
const FRAMES = [
  [500, 700],
  [600, 800],
  [740, 600],
  [900, 1200],
  [1000, 1400],
]
const CLEARANCES = [
  [150, 150],
  [100, 60],
  [60, 20],
  [20, 5],
  [80, 0],
  [40, 40],
].map(([frameMm, betweenMm]) => ({ frameMm, betweenMm }))

/**
 * Films for a screen as a shop may have them: usual sheets and odd ones, some alike, most of which
 * may be turned; two in three frames just about as large as the films and their gaps, some with
 * scratches under them.
 */
export function placementCases({ seed, count, films }) {
  return Array.from({ length: count }, (_, at) => {
    const drawn = drawnFrom(1000 * seed + at)
    const oneOf = (list) => list[Math.floor(drawn() * list.length)]
    const odd = () => 60 + Math.round(drawn() * 200)
    const sheets = Array.from({ length: films }, (__, film) => {
      const [widthMm, heightMm] = drawn() < 0.6 ? oneOf(SHEETS) : [odd(), odd()]
      return { name: `film ${film}`, widthMm, heightMm, turn: drawn() < 0.6 ? 'quarter' : 'fixed' }
    })
    if (drawn() < 0.3) sheets[1] = { ...sheets[0], name: 'film 1' }
    const clearance = oneOf(CLEARANCES)
    const { frameMm, betweenMm } = clearance
    const area = sheets.reduce(
      (sum, { widthMm, heightMm }) => sum + (widthMm + betweenMm) * (heightMm + betweenMm),
      0,
    )
    const tall = oneOf([0.7, 0.8, 1, 1.25, 1.4])
    const across = Math.sqrt((area * (0.85 + 0.6 * drawn())) / tall)
    const inside = (mm) => 10 * Math.round((mm - betweenMm + 2 * frameMm) / 10)
    const [insideWidthMm, insideHeightMm] =
      at % 3 === 2 ? oneOf(FRAMES) : [inside(across), inside(across * tall)]
    const scratch = () => ({
      xMm: Math.round(0.9 * drawn() * insideWidthMm),
      yMm: Math.round(0.9 * drawn() * insideHeightMm),
      widthMm: 5 + Math.round(40 * drawn()),
      heightMm: 5 + Math.round(60 * drawn()),
    })
    const keepOut = at % 4 === 3 ? Array.from({ length: 1 + Math.floor(2 * drawn()) }, scratch) : []
    return { frame: { insideWidthMm, insideHeightMm }, films: sheets, clearance, keepOut }
  })
}
