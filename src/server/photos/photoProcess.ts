import { servedWork } from '../jobs/servedWork.ts'
import { doPhotoWork } from './doPhotoWork.ts'
import type { PhotoResult } from './photoWork.ts'

// A photo is looked at in a process of its own: this file.

servedWork<never, PhotoResult>(doPhotoWork, {
  unsaid: 'Reading this photo met a fault in Yellowroom: take it again, or save it as JPEG.',
})
