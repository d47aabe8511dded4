const TABLE = new Uint32Array(256).map((_, byte) => {
  let code = byte
  for (let bit = 0; bit < 8; bit++) code = code & 1 ? (code >>> 1) ^ 0xedb88320 : code >>> 1
  return code
})

/**
 * CRC-32 over parts one after another, as PNG keeps it.
 *
 * @source png3 (annex D)
 */
export function crc32(...parts: readonly Uint8Array[]): number {
  let code = 0xffff_ffff
  for (const part of parts) {
    for (const byte of part) code = (code >>> 8) ^ (TABLE[(code ^ byte) & 0xff] ?? 0)
  }
  return ~code >>> 0
}
