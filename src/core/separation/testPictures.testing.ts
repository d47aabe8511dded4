/** Pictures drawn by code, for judging separations: a few hundred stored sRGB colours each, 0 … 255. */
export type TestPicture = Readonly<{
  name: string
  colourAt: (x: number, y: number) => readonly [number, number, number]
}>

/** x and y run from 0 to 1; colours of a shape, a ramp or a mixture of two, as a person would draw them. */
type Colour = readonly [number, number, number]

const mix = (from: Colour, to: Colour, part: number): Colour => [
  from[0] + part * (to[0] - from[0]),
  from[1] + part * (to[1] - from[1]),
  from[2] + part * (to[2] - from[2]),
]
const ramp = (stops: readonly Colour[], part: number): Colour => {
  const at = Math.min(stops.length - 2, Math.floor(part * (stops.length - 1)))
  return mix(stops[at] ?? [0, 0, 0], stops[at + 1] ?? [0, 0, 0], part * (stops.length - 1) - at)
}
const white: Colour = [255, 255, 255]
const black: Colour = [20, 18, 20]

const DRAWN: readonly (readonly [string, (x: number, y: number) => Colour])[] = [
  [
    'poster shapes',
    (x, y) =>
      Math.hypot(x - 0.4, y - 0.5) < 0.3
        ? [204, 46, 38]
        : y > 0.7
          ? [28, 66, 120]
          : [246, 232, 200],
  ],
  [
    'poster on black',
    (x, y) => (Math.abs(x - y) < 0.2 ? [240, 186, 30] : x > 0.6 ? [200, 40, 60] : [26, 24, 28]),
  ],
  ['grey ramp', (x) => ramp([white, black], x)],
  [
    'two ramps',
    (x, y) => (y < 0.5 ? ramp([white, [206, 44, 52]], x) : ramp([white, [22, 70, 140]], x)),
  ],
  [
    'sky',
    (x, y) =>
      mix(
        ramp(
          [
            [250, 214, 160],
            [120, 170, 214],
          ],
          y,
        ),
        white,
        0.3 * x,
      ),
  ],
  [
    'sunset',
    (x, y) =>
      mix(
        ramp(
          [
            [252, 220, 110],
            [226, 96, 60],
            [86, 40, 84],
          ],
          y,
        ),
        black,
        0.3 * x,
      ),
  ],
  [
    'pale skin',
    (x, y) =>
      mix(
        ramp(
          [
            [250, 224, 206],
            [206, 150, 124],
            [120, 74, 58],
          ],
          x,
        ),
        white,
        0.2 * y,
      ),
  ],
  [
    'dark skin',
    (x, y) =>
      mix(
        ramp(
          [
            [176, 122, 92],
            [112, 70, 50],
            [48, 30, 26],
          ],
          x,
        ),
        white,
        0.15 * y,
      ),
  ],
  [
    'foil neutrals',
    (x, y) => {
      const grey = 128 + 110 * Math.sin(9 * x + 3 * y)
      return [grey + 4, grey, grey - 6]
    },
  ],
  [
    'leaves',
    (x, y) =>
      mix(
        ramp(
          [
            [226, 226, 120],
            [90, 140, 60],
            [24, 60, 40],
          ],
          x,
        ),
        [250, 250, 240],
        0.3 * y,
      ),
  ],
  [
    'sea',
    (x, y) =>
      mix(
        ramp(
          [
            [210, 236, 232],
            [50, 140, 160],
            [14, 44, 82],
          ],
          y,
        ),
        [246, 240, 214],
        0.35 * x,
      ),
  ],
  [
    'all hues',
    (x, y) => {
      const wave = (turn: number): number => 150 + 90 * Math.cos(2 * Math.PI * (x - turn))
      return mix([wave(0), wave(1 / 3), wave(2 / 3)], white, y)
    },
  ],
]

export const TEST_PICTURES: readonly TestPicture[] = DRAWN.map(([name, drawn]) => ({
  name,
  colourAt: (x, y) => {
    const [r, g, b] = drawn(x, y).map((value) => Math.round(Math.min(255, Math.max(0, value))))
    return [r ?? 0, g ?? 0, b ?? 0]
  },
}))
