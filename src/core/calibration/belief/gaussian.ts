/** A normal distribution over numbers; `cov` is dense and symmetric, row after row. */
export type Gaussian = Readonly<{ mean: Float64Array; cov: Float64Array }>

/** One number made of the others: offset + Σ times[i] · number[at[i]]. */
export type Row = Readonly<{ at: readonly number[]; times: readonly number[]; offset: number }>

/** Numbers that know nothing of each other, appended after those that are there. */
export function extended(
  { mean, cov }: Gaussian,
  added: readonly Readonly<{ mean: number; sd: number }>[],
): Gaussian {
  const before = mean.length
  const size = before + added.length
  const wider = { mean: new Float64Array(size), cov: new Float64Array(size * size) }
  wider.mean.set(mean)
  for (let row = 0; row < before; row++) {
    wider.cov.set(cov.subarray(row * before, (row + 1) * before), row * size)
  }
  added.forEach((prior, at) => {
    wider.mean[before + at] = prior.mean
    wider.cov[(before + at) * (size + 1)] = prior.sd ** 2
  })
  return wider
}

/** What is left when only some of the numbers are looked at, in the order given. */
export function marginal({ mean, cov }: Gaussian, places: readonly number[]): Gaussian {
  const size = mean.length
  const kept = places.length
  const narrower = { mean: new Float64Array(kept), cov: new Float64Array(kept * kept) }
  places.forEach((from, row) => {
    narrower.mean[row] = mean[from] ?? 0
    places.forEach((column, to) => {
      narrower.cov[row * kept + to] = cov[from * size + column] ?? 0
    })
  })
  return narrower
}

/** The same, with variances added to single numbers: a random walk, a jump. */
export function loosened(
  { mean, cov }: Gaussian,
  added: readonly Readonly<{ at: number; variance: number }>[],
): Gaussian {
  const looser = cov.slice()
  for (const { at, variance } of added) {
    looser[at * (mean.length + 1)] = (looser[at * (mean.length + 1)] ?? 0) + variance
  }
  return { mean, cov: looser }
}

/** The joint distribution of a few numbers made of the many. */
export function projected(gaussian: Gaussian, rows: readonly Row[]): Gaussian {
  const sides = rows.map((row) => side(gaussian, row))
  const cov = new Float64Array(rows.length ** 2)
  rows.forEach((row, i) => {
    sides.forEach((column, j) => {
      cov[i * rows.length + j] = dot(row, column)
    })
  })
  return { mean: Float64Array.from(rows, (row) => row.offset + dot(row, gaussian.mean)), cov }
}

/**
 * News about a few numbers carried to all by regression: with C = P Aᵀ and K = C S⁻¹ the mean moves
 * by K (s' − s), the covariance by −K (S − S') Kᵀ. Exact where the news is Gaussian.
 *
 * @param rows A; `before` is projected(gaussian, rows), `after` what became of it; `isMine`: nobody
 * else looks at the distribution, it may be written over
 * @source moment-matching
 */
export function carried(
  gaussian: Gaussian,
  rows: readonly Row[],
  {
    before,
    after,
    isMine = false,
  }: Readonly<{ before: Gaussian; after: Gaussian; isMine?: boolean }>,
): Gaussian {
  const size = gaussian.mean.length
  const few = rows.length
  const inverse = inverseOf(before.cov, few)
  const sides = rows.map((row) => side(gaussian, row))
  const gains = rows.map((_, j) => {
    const gain = new Float64Array(size)
    sides.forEach((column, i) => {
      const times = inverse[i * few + j] ?? 0
      for (let at = 0; at < size; at++) gain[at] = (gain[at] ?? 0) + times * (column[at] ?? 0)
    })
    return gain
  })
  const mean = isMine ? gaussian.mean : gaussian.mean.slice()
  const cov = isMine ? gaussian.cov : gaussian.cov.slice()
  const moves = gains.map((gain, i) => {
    const shift = (after.mean[i] ?? 0) - (before.mean[i] ?? 0)
    const moved = new Float64Array(size)
    for (let at = 0; at < size; at++) mean[at] = (mean[at] ?? 0) + shift * (gain[at] ?? 0)
    gains.forEach((other, j) => {
      const change = (after.cov[i * few + j] ?? 0) - (before.cov[i * few + j] ?? 0)
      for (let at = 0; at < size; at++) moved[at] = (moved[at] ?? 0) + change * (other[at] ?? 0)
    })
    return moved
  })
  addOuters(cov, gains, moves)
  return { mean, cov }
}

/** One normal distribution with the mean and covariance of a mixture of several. */
export function collapsed(
  parts: readonly Readonly<{ share: number; gaussian: Gaussian }>[],
): Gaussian {
  const [first] = parts
  if (first === undefined) throw new RangeError('parts: expected at least 1, got 0')
  if (parts.length === 1) return first.gaussian
  const size = first.gaussian.mean.length
  const mean = new Float64Array(size)
  const cov = new Float64Array(size * size)
  for (const { share, gaussian } of parts) {
    for (let at = 0; at < size; at++) mean[at] = (mean[at] ?? 0) + share * (gaussian.mean[at] ?? 0)
  }
  for (const { share, gaussian } of parts) {
    for (let at = 0; at < cov.length; at++)
      cov[at] = (cov[at] ?? 0) + share * (gaussian.cov[at] ?? 0)
  }
  const offs = parts.map(({ gaussian }) =>
    gaussian.mean.map((value, at) => value - (mean[at] ?? 0)),
  )
  const weighed = offs.map((off, i) => off.map((value) => (parts[i]?.share ?? 0) * value))
  addOuters(cov, offs, weighed)
  return { mean, cov }
}

/** Lower factor L of a symmetric matrix, L Lᵀ; a direction without variance gets a speck of it. */
export function factorOf(cov: Float64Array, size: number): Float64Array {
  const factor = new Float64Array(size * size)
  for (let i = 0; i < size; i++) {
    for (let j = 0; j <= i; j++) {
      let left = cov[i * size + j] ?? 0
      for (let k = 0; k < j; k++) left -= (factor[i * size + k] ?? 0) * (factor[j * size + k] ?? 0)
      if (i > j) factor[i * size + j] = left / (factor[j * (size + 1)] ?? 1)
      else
        factor[i * (size + 1)] = Math.sqrt(
          Math.max(left, 1e-12 * (cov[i * (size + 1)] ?? 0), 1e-18),
        )
    }
  }
  return factor
}

/** L⁻¹ of a lower factor, lower again. */
export function inverseFactorOf(factor: Float64Array, size: number): Float64Array {
  const inverse = new Float64Array(size * size)
  for (let i = 0; i < size; i++) {
    const row = i * size
    inverse[row + i] = 1
    // row by row, as they lie in memory: a few hundred readings are many
    for (let k = 0; k < i; k++) {
      const times = factor[row + k] ?? 0
      for (let column = 0; column <= k; column++)
        inverse[row + column] =
          (inverse[row + column] ?? 0) - times * (inverse[k * size + column] ?? 0)
    }
    const pivot = factor[row + i] ?? 1
    for (let column = 0; column <= i; column++)
      inverse[row + column] = (inverse[row + column] ?? 0) / pivot
  }
  return inverse
}

/** The inverse of a symmetric matrix; a direction without variance counts as `factorOf` has it. */
export function inverseOf(cov: Float64Array, size: number): Float64Array {
  const lower = inverseFactorOf(factorOf(cov, size), size)
  const inverse = new Float64Array(size * size)
  for (let k = 0; k < size; k++) {
    for (let i = 0; i <= k; i++) {
      const times = lower[k * size + i] ?? 0
      for (let j = 0; j <= i; j++)
        inverse[i * size + j] = (inverse[i * size + j] ?? 0) + times * (lower[k * size + j] ?? 0)
    }
  }
  for (let i = 0; i < size; i++)
    for (let j = 0; j < i; j++) inverse[j * size + i] = inverse[i * size + j] ?? 0
  return inverse
}

/** Covariance of every number with the one that the row makes: P rowᵀ. */
function side({ mean, cov }: Gaussian, { at, times }: Row): Float64Array {
  const size = mean.length
  const column = new Float64Array(size)
  at.forEach((place, i) => {
    const factor = times[i] ?? 0
    const from = place * size
    for (let k = 0; k < size; k++) column[k] = (column[k] ?? 0) + factor * (cov[from + k] ?? 0)
  })
  return column
}

function dot({ at, times }: Row, values: Float64Array): number {
  return at.reduce((sum, place, i) => sum + (times[i] ?? 0) * (values[place] ?? 0), 0)
}

/**
 * Adds Σ left[i] · right[i]ᵀ, a symmetric matrix, to another: the lower half is reckoned and the
 * upper made what it is, for left to itself a speck of difference would grow.
 */
function addOuters(
  cov: Float64Array,
  lefts: readonly Float64Array[],
  rights: readonly Float64Array[],
): void {
  const size = Math.sqrt(cov.length)
  const none = new Float64Array(size)
  // Three at a time: a row of the matrix is long, and wants to be gone through but once.
  for (let from = 0; from < lefts.length; from += 3) {
    const [a = none, b = none, c = none] = lefts.slice(from, from + 3)
    const [ra = none, rb = none, rc = none] = rights.slice(from, from + 3)
    for (let row = 0; row < size; row++) {
      const [fa, fb, fc] = [a[row] ?? 0, b[row] ?? 0, c[row] ?? 0]
      const start = row * size
      for (let k = 0; k <= row; k++) {
        const more = fa * (ra[k] ?? 0) + fb * (rb[k] ?? 0) + fc * (rc[k] ?? 0)
        cov[start + k] = (cov[start + k] ?? 0) + more
      }
    }
  }
  for (let row = 0; row < size; row++) {
    const start = row * size
    for (let k = 0; k < row; k++) cov[k * size + row] = cov[start + k] ?? 0
  }
}
