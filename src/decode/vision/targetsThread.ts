import { once } from 'node:events'
import { parentPort } from 'node:worker_threads'
import { openVision, type Vision } from './openVision.ts'

/** A grey picture of 8 bits. */
export type GreyPicture = Readonly<{ widthPx: number; heightPx: number; grey: Uint8Array }>

/** A square target in it: its number, and its corners clockwise from its own top left. */
export type SeenTarget = Readonly<{
  number: number
  corners: readonly Readonly<{ x: number; y: number }>[]
}>

/** Corners to a fraction of a pixel. */
const REFINE_BY_SLOPES = 1

function targetsIn(vision: Vision, { widthPx, heightPx, grey }: GreyPicture): SeenTarget[] {
  const image = new vision.Mat(heightPx, widthPx, vision.CV_8UC1)
  image.data.set(grey)
  const dictionary = vision.getPredefinedDictionary(vision.DICT_4X4_50)
  const parameters = new vision.aruco_DetectorParameters()
  parameters['cornerRefinementMethod'] = REFINE_BY_SLOPES
  parameters['adaptiveThreshWinSizeMax'] = 43
  parameters['adaptiveThreshWinSizeStep'] = 20
  const refine = new vision.aruco_RefineParameters(10, 3, true)
  const detector = new vision.aruco_ArucoDetector(dictionary, parameters, refine)
  const corners = new vision.MatVector()
  const numbers = new vision.Mat()
  detector.detectMarkers(image, corners, numbers)
  const seen = Array.from({ length: corners.size() }, (_, at) => {
    const four = corners.get(at)
    const flat = [...four.data32F]
    four.delete()
    return {
      number: numbers.data32S[at] ?? -1,
      // the library counts from the middle of the first pixel
      corners: [0, 2, 4, 6].map((from) => ({
        x: (flat[from] ?? 0) + 0.5,
        y: (flat[from + 1] ?? 0) + 0.5,
      })),
    }
  })
  for (const owned of [numbers, corners, detector, refine, parameters, dictionary, image]) {
    owned.delete()
  }
  return seen
}

if (parentPort !== null) {
  // asked for at once: the picture may be there before the library
  const asked = once(parentPort, 'message') as Promise<[GreyPicture]>
  const { vision } = await openVision()
  const [picture] = await asked
  parentPort.postMessage(targetsIn(vision, picture), [])
}
