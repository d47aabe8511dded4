/**
 * How many 72nds of an inch a unit of the first page is: pages larger than 14,400 units state more
 * than one. The library that draws pages takes it for one.
 *
 * @returns 1 where the page says nothing, or nothing that can be
 * @source pdf32000 (7.7.3.3, entry UserUnit of a page, not inherited)
 */
export async function userUnitOf(bytes: Uint8Array): Promise<number> {
  if (!holdsAny(bytes, MAY_SAY_SO)) return 1
  const { PDFDocument, PDFName, PDFNumber } = await import('pdf-lib')
  try {
    const options = { updateMetadata: false, ignoreEncryption: true }
    const page = (await PDFDocument.load(bytes, options)).getPage(0)
    const unit = page.node.lookup(PDFName.of('UserUnit'))
    const is = unit instanceof PDFNumber ? unit.asNumber() : 1
    return is > 0 && is <= MOST ? is : 1
  } catch {
    return 1 // what draws the page could read it all the same
  }
}

/** It stands in the open, or among objects that are packed together. */
const MAY_SAY_SO = ['/UserUnit', '/ObjStm']
/** So many units on a page that no shop prints. Judged. */
const MOST = 10_000

/** Whether a file holds one of these words as it lies there. */
export function holdsAny(bytes: Uint8Array, words: readonly string[]): boolean {
  const file = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.length)
  return words.some((word) => file.includes(word, 0, 'latin1'))
}
