import { useCallback } from 'react'
import { PATHS } from '../../api/paths.ts'
import type { Photo, PhotoQuestion } from '../../api/photos.ts'
import { type Sending, useSending } from '../useSending.ts'

/** How far a photo is on its way. */
export type PhotoSending = Sending

/** Sends a photo. @param onTaken it has arrived */
export function useSendPhoto(onTaken: (photo: Photo) => void): Readonly<{
  sending: PhotoSending
  send: (file: File, question: PhotoQuestion) => void
  stop: () => void
}> {
  return useSending(
    PATHS.photos,
    useCallback((answer: unknown) => onTaken(answer as Photo), [onTaken]),
  )
}
