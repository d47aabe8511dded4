import { servedWork } from '../jobs/servedWork.ts'
import type { ArtworkResult } from './artworkWork.ts'
import { doArtworkWork } from './doArtworkWork.ts'

// Artwork is looked at, and its films are made, in a process of its own: this file.

servedWork<never, ArtworkResult>(doArtworkWork, {
  unsaid:
    'This artwork met a fault in Yellowroom: save it in another form, like PNG or PDF, and bring it again.',
})
