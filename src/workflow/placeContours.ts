import { type Laying, lightInFrame } from './placeProblem.ts'

type Point = Readonly<{ xMm: number; yMm: number }>

/** Where the light is one share of that in the middle of the glass, as short straight pieces. */
type Contour = Readonly<{
  share: number
  pieces: readonly (readonly [Point, Point])[]
  /** Where its figure stands: its lowest place inside the frame. */
  label: Point
}>

const CELLS = 36
const STEPS = [0.01, 0.02, 0.05, 0.1, 0.2]
const MOST_CONTOURS = 6

/** The lamp’s evenness inside a frame as lines of equal light; none where nobody measured it. */
export function lightContours(laying: Laying): readonly Contour[] {
  const shareAt = lightInFrame(laying)
  if (shareAt === null) return []
  const { insideWidthMm, insideHeightMm } = laying.frame
  const [dx, dy] = [insideWidthMm / CELLS, insideHeightMm / CELLS]
  const values = Array.from({ length: (CELLS + 1) ** 2 }, (_, at) =>
    shareAt({ xMm: (at % (CELLS + 1)) * dx, yMm: Math.floor(at / (CELLS + 1)) * dy }),
  )
  const [low, high] = [Math.min(...values), Math.max(...values)]
  const step = STEPS.find((each) => (high - low) / each <= MOST_CONTOURS)
  if (step === undefined) return []
  const first = Math.ceil(low / step + 1e-9)
  const count = Math.max(0, Math.floor(high / step - 1e-9) - first + 1)
  return Array.from({ length: count }, (_, at) => (first + at) * step).flatMap((share) => {
    const pieces = crossings(values, { share, dx, dy })
    const ends = pieces.flat()
    const label = ends.reduce<Point | null>(
      (lowest, end) => (lowest === null || end.yMm > lowest.yMm ? end : lowest),
      null,
    )
    return label === null ? [] : [{ share, pieces, label }]
  })
}

/** Each cell of the grid in two triangles, so that no cell is doubtful. */
function crossings(
  values: readonly number[],
  { share, dx, dy }: Readonly<{ share: number; dx: number; dy: number }>,
): readonly (readonly [Point, Point])[] {
  const corner = (column: number, row: number) => ({
    xMm: column * dx,
    yMm: row * dy,
    value: values[row * (CELLS + 1) + column] ?? 0,
  })
  const pieces: (readonly [Point, Point])[] = []
  for (let row = 0; row < CELLS; row++) {
    for (let column = 0; column < CELLS; column++) {
      const [a, b] = [corner(column, row), corner(column + 1, row)]
      const [c, d] = [corner(column + 1, row + 1), corner(column, row + 1)]
      for (const triangle of [
        [a, b, c],
        [a, c, d],
      ] as const) {
        const met = triangle.flatMap((from, at) => {
          const to = triangle[(at + 1) % 3] ?? from
          if (from.value < share === to.value < share) return []
          const part = (share - from.value) / (to.value - from.value)
          return [
            {
              xMm: from.xMm + part * (to.xMm - from.xMm),
              yMm: from.yMm + part * (to.yMm - from.yMm),
            },
          ]
        })
        const [one, other] = met
        if (one !== undefined && other !== undefined) pieces.push([one, other])
      }
    }
  }
  return pieces
}
