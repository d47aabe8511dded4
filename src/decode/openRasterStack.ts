/** A picture of an OpenRaster file, or a group of them, the topmost first. */
export type OpenRasterNode = Readonly<{
  name: string
  xPx: number
  yPx: number
  opacity: number
  isSeen: boolean
  /** How it is laid on what lies below, in the format's word. */
  operator: string
}> &
  (
    | Readonly<{ kind: 'layer'; source: string }>
    | Readonly<{ kind: 'stack'; nodes: readonly OpenRasterNode[] }>
  )

export type OpenRasterImage = Readonly<{
  widthPx: number
  heightPx: number
  widthMm: number | null
  nodes: readonly OpenRasterNode[]
}>

/** Groups in groups: more than people make. */
const MOST_DEEP = 32

const TAG = /<(\/?)([A-Za-z][\w:-]*)((?:\s+[\w:-]+\s*=\s*(?:"[^"<]*"|'[^'<]*'))*)\s*(\/?)>/g
const ATTRIBUTE = /([\w:-]+)\s*=\s*(?:"([^"<]*)"|'([^'<]*)')/g

/**
 * The stack.xml of an OpenRaster file.
 *
 * @returns a word for what is wrong with it, where it is none
 * @source openraster
 */
export function readStack(xml: string): OpenRasterImage | string {
  if (/<!(?:DOCTYPE|ENTITY)/i.test(xml)) return 'defines entities of its own'
  const plain = without(without(xml, ['<!--', '-->']), ['<?', '?>'])
  const open: OpenRasterNode[][] = []
  const groups: ReadonlyMap<string, string>[] = []
  let image: ReadonlyMap<string, string> | null = null
  let nodes: readonly OpenRasterNode[] | null = null
  for (const [, closing, tag = '', attributes = '', single] of plain.matchAll(TAG)) {
    const given = attributesOf(attributes)
    if (closing === '/' ? tag === 'stack' : tag === 'stack' && single === '/') {
      const inner = closing === '/' ? open.pop() : []
      const group = closing === '/' ? groups.pop() : given
      if (inner === undefined || group === undefined) return 'has groups that do not close'
      const last = open.at(-1)
      if (last === undefined) nodes = inner
      else last.push({ kind: 'stack', ...nodeOf(group), nodes: inner })
    } else if (closing === '/') continue
    else if (tag === 'image') image = given
    else if (tag === 'stack') {
      open.push([])
      groups.push(given)
      if (open.length > MOST_DEEP) return `has groups more than ${MOST_DEEP} deep`
    } else if (tag === 'layer') {
      open.at(-1)?.push({ kind: 'layer', ...nodeOf(given), source: given.get('src') ?? '' })
    }
  }
  if (image === null || nodes === null || open.length > 0) return 'has no list of layers'
  const [widthPx, heightPx] = [Number(image.get('w')), Number(image.get('h'))]
  if (!isSide(widthPx) || !isSide(heightPx)) return 'states no size'
  const perInch = Number(image.get('xres'))
  const widthMm = perInch > 0 && Number.isFinite(perInch) ? (25.4 * widthPx) / perInch : null
  return { widthPx, heightPx, widthMm, nodes }
}

/** The text without all that stands between two marks; a beginning without an end stays. */
function without(text: string, [begin, end]: readonly [string, string]): string {
  const kept: string[] = []
  for (let from = 0; ; ) {
    const start = text.indexOf(begin, from)
    const stop = start < 0 ? -1 : text.indexOf(end, start + begin.length)
    if (stop < 0) return kept.length === 0 ? text : `${kept.join('')}${text.slice(from)}`
    kept.push(text.slice(from, start))
    from = stop + end.length
  }
}

function isSide(px: number): boolean {
  return Number.isSafeInteger(px) && px > 0
}

function nodeOf(given: ReadonlyMap<string, string>): Omit<OpenRasterNode, 'kind'> {
  const opacity = Number(given.get('opacity') ?? 1)
  const place = (key: string): number => Math.trunc(Number(given.get(key) ?? 0)) || 0
  return {
    name: given.get('name') ?? '',
    xPx: place('x'),
    yPx: place('y'),
    opacity: opacity >= 0 && opacity <= 1 ? opacity : 1,
    isSeen: given.get('visibility') !== 'hidden',
    operator: given.get('composite-op') ?? 'svg:src-over',
  }
}

const LETTERS: Readonly<Record<string, string>> = {
  amp: '&',
  lt: '<',
  gt: '>',
  quot: '"',
  apos: "'",
}

function attributesOf(text: string): ReadonlyMap<string, string> {
  return new Map(
    [...text.matchAll(ATTRIBUTE)].map(([, key = '', one, other]) => [
      key,
      (one ?? other ?? '').replace(/&(\w+);/g, (whole, name: string) => LETTERS[name] ?? whole),
    ]),
  )
}
