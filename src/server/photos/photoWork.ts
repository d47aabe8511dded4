import type { Inspection, PhotoAsk, PhotoReading, PhotoTest } from '../../api/photos.ts'
import type { KnownMedium } from '../../core/film/mediumLooks.ts'
import type { FilmSource } from '../jobs/work.ts'

/** The addresses of pictures are known by whoever keeps them. */
export type ReadingFound = Omit<PhotoReading, 'picture'>
export type InspectionFound = Omit<Inspection, 'screenPicture' | 'filmPicture' | 'spottingList'>

/** A photo, by where it lies and by what its owner calls it. */
type PhotoFile = Readonly<{ path: string; name: string }>

/** What is done with a photo in a process of its own. */
export type PhotoWork =
  /** Made upright and small. */
  | Readonly<{ kind: 'look'; photo: PhotoFile; previewPath: string }>
  /** Read: densities true to size, and a picture of them. */
  | Readonly<{
      kind: 'read'
      photo: PhotoFile
      ask: PhotoAsk
      /** What the shop's marks are made with. */
      media: readonly KnownMedium[]
      mapPath: string
      picturePath: string
    }>
  /** Compared with the film it was exposed with; both are drawn as they were laid together. */
  | Readonly<{
      kind: 'inspect'
      photo: PhotoFile
      film: Extract<FilmSource, { kind: 'file' }>
      ask: PhotoAsk
      screenPath: string
      filmPath: string
      /** Where the list of places goes, and what it says of shop, film and day. */
      list: Readonly<{
        path: string
        shop: Readonly<{ name: string; demo: boolean }>
        title: string
        date: string
      }>
    }>

  /** A washed-out wedge or strip, read for somebody to nod at. */
  | Readonly<{ kind: 'test'; test: PhotoTest['kind']; photo: PhotoFile; ask: PhotoAsk }>

export type PhotoResult =
  | Readonly<{ kind: 'look'; widthPx: number; heightPx: number }>
  | Readonly<{ kind: 'read'; reading: ReadingFound }>
  | Readonly<{ kind: 'inspect'; inspection: InspectionFound }>
  | Readonly<{ kind: 'test'; told: PhotoTest }>
