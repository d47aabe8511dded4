import { PDFArray, type PDFContext, PDFName, type PDFObject, PDFStream } from 'pdf-lib'

/** What of a PDF is drawn: one ink as grey, or all that is none of the inks. */
export type InkTarget = Readonly<{
  /** In small letters, those of the plan. */
  inks: readonly string[]
  /** The place in `inks` of the one drawn; null for the rest. */
  drawn: number | null
  /** The four inks that DeviceCMYK names, where it passes through; null where it is a colour. */
  cmyk: readonly [number, number, number, number] | null
}>

type Mapping = Readonly<{ context: PDFContext; target: InkTarget }>

/** Names by which our own spaces stand in every resource dictionary. */
export const OWN_SPACES = {
  DeviceGray: 'YellowroomGrey',
  DeviceRGB: 'YellowroomRgb',
  DeviceCMYK: 'YellowroomCmyk',
} as const

/** Those spaces: what the three device spaces become. */
export function ownSpaces(context: PDFContext, target: InkTarget): ReadonlyMap<string, PDFObject> {
  return new Map(
    Object.entries(OWN_SPACES).map(([device, own]) => [
      own,
      mappedSpace(PDFName.of(device), { context, target }),
    ]),
  )
}

/** Whether a colour space is that of one of the inks. */
export function isInkSpace(
  space: PDFArray,
  { context, inks }: Readonly<{ context: PDFContext; inks: readonly string[] }>,
): boolean {
  return colorantsOf(space, context).some((name) => inks.includes(name))
}

/** The names of a Separation or DeviceN space in small letters; none of any other. */
function colorantsOf(space: PDFObject, context: PDFContext): readonly string[] {
  return colorantNames(space, context).map((name) => name.toLowerCase())
}

/** Those names as they are written. */
export function colorantNames(space: PDFObject, context: PDFContext): readonly string[] {
  if (!(space instanceof PDFArray) || space.size() < 4) return []
  const [family, names] = [context.lookup(space.get(0)), context.lookup(space.get(1))]
  const written = (name: PDFObject | undefined): string =>
    name instanceof PDFName ? name.decodeText().trim() : ''
  if (family === PDFName.of('Separation')) return [written(names)]
  if (family === PDFName.of('DeviceN') && names instanceof PDFArray) {
    return names.asArray().map((name) => written(context.lookup(name)))
  }
  return []
}

/** What a colour space becomes for the target. */
export function mappedSpace(given: PDFObject, { context, target }: Mapping): PDFObject {
  const space = context.lookup(given)
  if (space === undefined) return given
  const { inks, drawn, cmyk } = target
  const colorants = colorantsOf(space, context)
  if (colorants.length > 0) {
    const passes = colorants.some((name) => inks.includes(name))
    if (drawn === null) return passes ? paper(colorants.length, context) : given
    const at = colorants.indexOf(inks[drawn] ?? '')
    return at < 0 ? paper(colorants.length, context) : one(at, colorants.length, context)
  }
  if (space === PDFName.of('DeviceCMYK') && cmyk !== null) {
    const at = drawn === null ? -1 : cmyk.indexOf(drawn)
    return at < 0 ? paper(4, context) : one(at, 4, context)
  }
  if (space instanceof PDFArray) {
    const family = context.lookup(space.get(0))
    if (family === PDFName.of('Indexed') || family === PDFName.of('I')) {
      const [, base, most, table] = space.asArray()
      if (base === undefined || most === undefined || table === undefined) return given
      return context.obj([
        PDFName.of('Indexed'),
        mappedSpace(base, { context, target }),
        most,
        table,
      ])
    }
    if (family === PDFName.of('Pattern')) {
      const base = space.size() > 1 ? space.get(1) : null
      return base === null
        ? given
        : context.obj([PDFName.of('Pattern'), mappedSpace(base, { context, target })])
    }
  }
  if (drawn === null || space === PDFName.of('Pattern')) return given
  return paper(partsOf(space, context), context)
}

function partsOf(space: PDFObject, context: PDFContext): number {
  const family = space instanceof PDFArray ? context.lookup(space.get(0)) : space
  const name = family instanceof PDFName ? family.decodeText() : ''
  if (name === 'DeviceCMYK' || name === 'CMYK') return 4
  if (name === 'DeviceGray' || name === 'CalGray' || name === 'G') return 1
  if (name === 'ICCBased' && space instanceof PDFArray) {
    const profile = context.lookup(space.get(1))
    const parts = profile instanceof PDFStream ? profile.dict.get(PDFName.of('N')) : undefined
    return Number(parts?.toString() ?? 3)
  }
  return 3
}

/** A space in which every colour is paper. */
function paper(parts: number, context: PDFContext): PDFObject {
  return spaceOf(parts, `{${'pop '.repeat(parts)}1}`, context)
}

/** A space in which one of the colour's parts is ink, and the others are nothing. */
function one(at: number, parts: number, context: PDFContext): PDFObject {
  // the parts lie on a stack, the last on top: take off those above, turn it, drop those below
  const above = 'pop '.repeat(parts - 1 - at)
  const below = 'exch pop '.repeat(at)
  return spaceOf(parts, `{${above}1 exch sub ${below}}`, context)
}

function spaceOf(parts: number, program: string, context: PDFContext): PDFObject {
  const domain = Array.from({ length: parts }, () => [0, 1]).flat()
  const tint = context.register(
    context.stream(program, { FunctionType: 4, Domain: domain, Range: [0, 1] }),
  )
  const names = Array.from({ length: parts }, (_, at) => PDFName.of(`Yellowroom${at + 1}`))
  return context.obj([PDFName.of('DeviceN'), names, PDFName.of('DeviceGray'), tint])
}
