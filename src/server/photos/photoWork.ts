/** A photo, by where it lies and by what its owner calls it. */
type PhotoFile = Readonly<{ path: string; name: string }>

/** What is done with a photo in a process of its own. */
export type PhotoWork =
  /** Made upright and small. */
  Readonly<{ kind: 'look'; photo: PhotoFile; previewPath: string }>

export type PhotoResult = Readonly<{ kind: 'look'; widthPx: number; heightPx: number }>
