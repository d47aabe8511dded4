/** The four nodes about a colour and what each counts for; one room, filled anew each time. */
export type Corners = Readonly<{ nodes: Int32Array; parts: Float64Array }>
const CORNERS: Corners = { nodes: new Int32Array(4), parts: new Float64Array(4) }
const RESTS: Float64Array = new Float64Array(3)
const AXES: Int8Array = new Int8Array(3)

/**
 * The four nodes of a grid over stored sRGB about a colour: from the darkest along the axes, the
 * farthest way first, so that greys stay on their diagonal.
 *
 * @param colour 0 … 255
 * @returns holds until the next is asked for
 */
export function tetrahedron(colour: readonly [number, number, number], cells: number): Corners {
  const { nodes, parts } = CORNERS
  const side = cells + 1
  let node = 0
  for (let axis = 0; axis < 3; axis++) {
    const at = ((colour[axis] ?? 0) * cells) / 255
    const cell = Math.min(cells - 1, Math.floor(at))
    node = node * side + cell
    RESTS[axis] = at - cell
    // by their rests, the largest first; of equals the first axis
    let place = axis
    for (; place > 0 && (RESTS[AXES[place - 1] ?? 0] ?? 0) < at - cell; place--) {
      AXES[place] = AXES[place - 1] ?? 0
    }
    AXES[place] = axis
  }
  let before = 1
  for (let step = 0; step < 3; step++) {
    const axis = AXES[step] ?? 0
    const rest = RESTS[axis] ?? 0
    nodes[step] = node
    parts[step] = before - rest
    before = rest
    node += axis === 0 ? side ** 2 : axis === 1 ? side : 1
  }
  nodes[3] = node
  parts[3] = before
  return CORNERS
}

/** What lies between the nodes, one share an ink. */
export function blended(
  { nodes, parts }: Corners,
  sharesAt: (node: number) => Float64Array,
  mixed: Float64Array,
): Float64Array {
  // what a node's shares are may ask for corners itself
  const [n0 = 0, n1 = 0, n2 = 0, n3 = 0] = nodes
  const [p0 = 0, p1 = 0, p2 = 0, p3 = 0] = parts
  mixed.fill(0)
  if (p0 !== 0) add(mixed, p0, sharesAt(n0))
  if (p1 !== 0) add(mixed, p1, sharesAt(n1))
  if (p2 !== 0) add(mixed, p2, sharesAt(n2))
  if (p3 !== 0) add(mixed, p3, sharesAt(n3))
  return mixed
}

function add(mixed: Float64Array, part: number, shares: Float64Array): void {
  for (let ink = 0; ink < mixed.length; ink++) {
    mixed[ink] = (mixed[ink] ?? 0) + part * (shares[ink] ?? 0)
  }
}
