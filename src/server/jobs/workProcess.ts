import { doFilmWork } from './filmWork.ts'
import { handsHere } from './hands.ts'
import { servedWork } from './servedWork.ts'
import type { FilmWork, FilmWorkPicture, FilmWorkResult } from './work.ts'

// A film is read in a process of its own: this file.

/** They live as long as this process: what they keep in memory is used for film after film. */
const HANDS = handsHere()

servedWork<FilmWorkPicture, FilmWorkResult>(
  (work: FilmWork, says) => doFilmWork(work, { hands: HANDS, ...says }),
  {
    unsaid:
      'Reading this film met a fault in Yellowroom: save it in another form, like an 8-bit grey PNG, and bring it again.',
  },
)
