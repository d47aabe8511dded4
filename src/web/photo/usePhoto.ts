import { useEffect, useMemo, useRef } from 'react'
import { photoPath } from '../../api/paths.ts'
import type { Photo } from '../../api/photos.ts'
import type { Asked } from '../asked.ts'
import { useAsked } from '../useAsked.ts'

/** How often one asks how far it is: somebody waits for the picture, or for what is in it. */
const PICTURE_MS = 120
const AGAIN_MS = 300

/** A photo, asked after until nothing more is done with it. @param id null: there is none yet */
export function usePhoto(id: string | null): readonly [Asked<Photo>, () => void] {
  const [asked, askAgain] = useAsked<Photo>(
    useMemo(() => (id === null ? null : { path: photoPath(id) }), [id]),
  )
  const { answer, answeredAt } = asked
  const isOld = answer !== null && answer.id !== id
  const goesOn = answer !== null && (answer.status === 'waiting' || answer.status === 'reading')
  const pauseMs = answer?.preview === null ? PICTURE_MS : AGAIN_MS
  const again = useRef(askAgain)
  useEffect(() => {
    again.current = askAgain
  }, [askAgain])
  useEffect(() => {
    if (!goesOn || answeredAt === null) return undefined
    const timer = setTimeout(() => again.current(), pauseMs)
    return () => clearTimeout(timer)
  }, [goesOn, answeredAt, pauseMs])
  return [isOld ? { ...asked, answer: null } : asked, askAgain]
}
