import {
  PDFArray,
  type PDFContext,
  PDFDict,
  PDFDocument,
  PDFName,
  type PDFObject,
  PDFRawStream,
  type PDFRef,
  PDFStream,
} from 'pdf-lib'
import { rewrittenContent } from './pdfInkContent.ts'
import {
  colorantNames,
  type InkTarget,
  isInkSpace,
  mappedSpace,
  ownSpaces,
} from './pdfInkSpaces.ts'

/**
 * Whether a PDF holds inks of these names, which pass through as they are.
 *
 * @param inks names in small letters
 */
export async function hasInks(bytes: Uint8Array, inks: readonly string[]): Promise<boolean> {
  const { context } = await PDFDocument.load(bytes, { updateMetadata: false })
  return context
    .enumerateIndirectObjects()
    .some(([, object]) => deepArrays(object).some((array) => isInkSpace(array, { context, inks })))
}

/**
 * A PDF in which one ink alone is drawn, as grey: paper where it is not, black where it is solid. Or
 * the rest of it: paper where the inks that pass through are drawn.
 *
 * Colour spaces are replaced, and in the drawing operators what names none. Masks stay as they are.
 *
 * @source pdf32000 (8.6 colour spaces, 8.6.8 colour operators, 7.10.5 PostScript calculator functions)
 * @limits overprinting is not heeded, nor are colours of inline images
 */
export async function inkOfPdf(bytes: Uint8Array, target: InkTarget): Promise<Uint8Array> {
  const document = await PDFDocument.load(bytes, { updateMetadata: false })
  const { context } = document
  const objects = context.enumerateIndirectObjects()
  const masks = masksOf(objects, context)
  const pages = new Set(document.getPages().flatMap((page) => contentsOf(page.node, context)))
  const spaces = ownSpaces(context, target)
  const seen = new Set<PDFDict>()
  for (const [ref, object] of objects) {
    if (masks.has(ref)) continue
    const dict = dictOf(object)
    if (dict === null) continue
    mapResources(dict, { context, target, spaces, seen })
    mapOwnSpace(dict, { context, target })
    if (object instanceof PDFRawStream && (isDrawing(dict) || pages.has(ref))) {
      context.assign(ref, rewrittenContent(object, target, { startsPage: pages.has(ref) }))
    }
  }
  return document.save({ useObjectStreams: false, addDefaultPage: false })
}

function dictOf(object: PDFObject): PDFDict | null {
  if (object instanceof PDFDict) return object
  return object instanceof PDFStream ? object.dict : null
}

/** Its colour spaces that name inks. */
export function spacesOf(context: PDFContext): readonly PDFArray[] {
  return context
    .enumerateIndirectObjects()
    .flatMap(([, object]) => deepArrays(object))
    .filter((array) => colorantNames(array, context).length > 0)
}

function deepArrays(object: PDFObject): readonly PDFArray[] {
  if (object instanceof PDFArray) return [object, ...object.asArray().flatMap(deepArrays)]
  const dict = dictOf(object)
  return dict === null ? [] : dict.values().flatMap(deepArrays)
}

function contentsOf(page: PDFDict, context: PDFContext): readonly PDFRef[] {
  const contents = page.get(PDFName.of('Contents'))
  const there = context.lookup(contents)
  const list = there instanceof PDFArray ? there.asArray() : [contents]
  return list.filter((one): one is PDFRef => one !== undefined && 'objectNumber' in one)
}

/** Streams that say how much is let through: not colours that are printed. */
function masksOf(
  objects: readonly (readonly [PDFRef, PDFObject])[],
  context: PDFContext,
): ReadonlySet<PDFRef> {
  const masks = new Set<PDFRef>()
  const keep = (value: PDFObject | undefined): void => {
    if (value !== undefined && 'objectNumber' in value) masks.add(value as PDFRef)
  }
  for (const [, object] of objects) {
    const dict = dictOf(object)
    const mask = dict?.get(PDFName.of('SMask'))
    keep(mask)
    const state = context.lookup(mask)
    if (state instanceof PDFDict) keep(state.get(PDFName.of('G')))
  }
  return masks
}

function isDrawing(dict: PDFDict): boolean {
  const subtype = dict.get(PDFName.of('Subtype'))
  const pattern = dict.get(PDFName.of('PatternType'))
  return subtype === PDFName.of('Form') || pattern?.toString() === '1'
}

type Mapping = Readonly<{ context: PDFContext; target: InkTarget }>

/** The named colour spaces of a page, a form or a pattern, and ours beside them. */
function mapResources(
  dict: PDFDict,
  {
    context,
    target,
    spaces,
    seen,
  }: Mapping & Readonly<{ spaces: ReadonlyMap<string, PDFObject>; seen: Set<PDFDict> }>,
): void {
  const resources = context.lookup(dict.get(PDFName.of('Resources')))
  if (!(resources instanceof PDFDict) || seen.has(resources)) return
  seen.add(resources)
  const found = context.lookup(resources.get(PDFName.of('ColorSpace')))
  const named = found instanceof PDFDict ? found : context.obj({})
  if (!(found instanceof PDFDict)) resources.set(PDFName.of('ColorSpace'), named)
  if (!seen.has(named)) {
    seen.add(named)
    for (const [name, space] of named.entries()) {
      named.set(name, mappedSpace(space, { context, target }))
    }
  }
  for (const [name, space] of spaces) named.set(PDFName.of(name), space)
}

/** The colour space of a picture or of a shading. */
function mapOwnSpace(dict: PDFDict, mapping: Mapping): void {
  const key = PDFName.of('ColorSpace')
  const space = dict.get(key)
  const isShading = dict.has(PDFName.of('ShadingType'))
  const isPicture = dict.get(PDFName.of('Subtype')) === PDFName.of('Image')
  if (space !== undefined && (isShading || isPicture)) dict.set(key, mappedSpace(space, mapping))
  const shading = mapping.context.lookup(dict.get(PDFName.of('Shading')))
  if (dict.has(PDFName.of('PatternType')) && shading instanceof PDFDict) {
    if (dict.get(PDFName.of('Shading')) === shading) mapOwnSpace(shading, mapping)
  }
}
