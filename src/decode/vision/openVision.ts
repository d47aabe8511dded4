import { createRequire } from 'node:module'

/** A matrix of the library's, outside the collector's reach: it wants `delete`. */
type Mat = Readonly<{
  rows: number
  data: Uint8Array
  data32F: Float32Array
  data32S: Int32Array
  delete: () => void
}>

type Mats = Readonly<{ size: () => number; get: (at: number) => Mat; delete: () => void }>

type Owned = Readonly<{ delete: () => void }>

/** The part of the general-purpose vision library that we use. */
export type Vision = Readonly<{
  Mat: new (rows?: number, columns?: number, type?: number) => Mat
  MatVector: new () => Mats
  CV_8UC1: number
  DICT_4X4_50: number
  getPredefinedDictionary: (kind: number) => Owned
  aruco_DetectorParameters: new () => Owned & Record<string, unknown>
  aruco_RefineParameters: new (minRep: number, error: number, check: boolean) => Owned
  aruco_ArucoDetector: new (
    dictionary: Owned,
    parameters: Owned,
    refine: Owned,
  ) => Owned & Readonly<{ detectMarkers: (image: Mat, corners: Mats, numbers: Mat) => void }>
}>

type Loading = Vision & { onRuntimeInitialized?: () => void }

/** Loads the library, which takes most of a second: in a thread that ends with its work. */
export async function openVision(): Promise<Readonly<{ vision: Vision }>> {
  const require = createRequire(import.meta.url)
  const library = require('@techstark/opencv-js') as Loading
  await new Promise<void>((resolve) => {
    if (typeof library.Mat === 'function') resolve()
    else library.onRuntimeInitialized = resolve
  })
  // it looks like a promise and never settles: within a record nobody awaits it
  return { vision: library }
}
