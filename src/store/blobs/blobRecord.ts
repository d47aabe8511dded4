/** A file in the shop's folder, known by its content. */
export type BlobRecord = Readonly<{
  sha256: string
  sizeBytes: number
  mediaType: string
  /** Again at every time that the same content came. */
  storedAt: Date
}>
