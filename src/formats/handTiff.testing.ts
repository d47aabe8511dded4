/** TIFF files laid out by hand after TIFF 6.0, for kinds that no library at hand writes. */
export type HandTiff = Readonly<{
  widthPx: number
  heightPx: number
  bits: number
  /** 1 whole, 2 signed, 3 floating point. */
  sampleFormat?: number
  /** 0 white is zero, 1 black is zero, 2 RGB. */
  photometric?: number
  channels?: number
  compression?: number
  /** The packed samples, one strip, already compressed and in the file's byte order. */
  strip: Uint8Array
  little?: boolean
  /** X and Y resolution as fractions, and the unit: 1 none, 2 inch, 3 cm; left out unless given. */
  resolution?: readonly [number, number, number, number, number]
  orientation?: number
  /** Directory before the strip, as some programs write it: a cut end then hits the samples. */
  directoryFirst?: boolean
}>

export function handTiff(of: HandTiff): Uint8Array {
  const { little = true, channels = 1, strip } = of
  const short = 3
  const long = 4
  const rational = 5
  const tags: [number, number, readonly number[]][] = [
    [256, long, [of.widthPx]],
    [257, long, [of.heightPx]],
    [258, short, Array.from({ length: channels }, () => of.bits)],
    [259, short, [of.compression ?? 1]],
    [262, short, [of.photometric ?? 1]],
    [273, long, [0]], // corrected below
    [277, short, [channels]],
    [278, long, [of.heightPx]],
    [279, long, [strip.length]],
    [339, short, Array.from({ length: channels }, () => of.sampleFormat ?? 1)],
  ]
  if (of.orientation !== undefined) tags.push([274, short, [of.orientation]])
  if (of.resolution !== undefined) {
    const [xOver, xUnder, yOver, yUnder, unit] = of.resolution
    tags.push([282, rational, [xOver, xUnder]], [283, rational, [yOver, yUnder]])
    tags.push([296, short, [unit]])
  }
  tags.sort(([one], [other]) => one - other)
  const tableBytes = 2 + 12 * tags.length + 4
  const apartBytes = 16 * tags.length
  const padded = strip.length + (strip.length % 2)
  const directoryAt = of.directoryFirst === true ? 8 : 8 + padded
  const stripAt = of.directoryFirst === true ? 8 + tableBytes + apartBytes : 8
  const bytes = new Uint8Array(8 + tableBytes + apartBytes + padded)
  const view = new DataView(bytes.buffer)
  view.setUint16(0, little ? 0x4949 : 0x4d4d)
  view.setUint16(2, 42, little)
  view.setUint32(4, directoryAt, little)
  view.setUint16(directoryAt, tags.length, little)
  tags.forEach(([tag, type, values], index) => {
    const at = directoryAt + 2 + 12 * index
    view.setUint16(at, tag, little)
    view.setUint16(at + 2, type, little)
    view.setUint32(at + 4, type === rational ? values.length / 2 : values.length, little)
    const width = type === short ? 2 : 4
    const apartAt = directoryAt + tableBytes + 16 * index
    const start = width * values.length > 4 ? apartAt : at + 8
    if (start === apartAt) view.setUint32(at + 8, apartAt, little)
    values.forEach((value, each) => {
      const stored = tag === 273 ? stripAt : value
      if (width === 2) view.setUint16(start + 2 * each, stored, little)
      else view.setUint32(start + 4 * each, stored, little)
    })
  })
  bytes.set(strip, stripAt)
  return bytes
}

/** Samples as bytes in the asked order. */
export function packed(samples: readonly number[], bits: 16 | 32 | 64, little = true): Uint8Array {
  const view = new DataView(new ArrayBuffer((samples.length * bits) / 8))
  samples.forEach((sample, index) => {
    if (bits === 16) view.setUint16(2 * index, sample, little)
    else if (bits === 32) view.setFloat32(4 * index, sample, little)
    else view.setFloat64(8 * index, sample, little)
  })
  return new Uint8Array(view.buffer)
}
