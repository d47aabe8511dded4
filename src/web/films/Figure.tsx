import { type ReactNode, useEffect, useRef, useState } from 'react'
import { Blank, BlankEntry } from '../signs/Blank.tsx'
import { FILMS_WORDS } from './filmsWords.ts'

/** A choice among a few words. */
export function Words({
  label,
  value,
  words,
  onChoice,
}: Readonly<{
  label: string
  value: string
  words: Readonly<Record<string, string>>
  onChoice: (id: string) => void
}>): ReactNode {
  const choices = Object.entries(words).map(([id, name]) => ({ id, name }))
  return <Blank label={label} value={value} choices={choices} onChoice={onChoice} />
}

/** Between two keys of one number. */
const PAUSE_MS = 170

/** A number in the sentence; what is written counts when the hand rests. */
export function Figure({
  label,
  value,
  wrong,
  onFigure,
}: Readonly<{
  label: string
  value: number
  wrong: string | null
  onFigure: (value: number) => void
}>): ReactNode {
  const [written, setWritten] = useState<string | null>(null)
  const shown = String(Number(value.toFixed(3)))
  const tell = useRef(onFigure)
  useEffect(() => {
    tell.current = onFigure
  })
  // what is written counts once; a value that comes from elsewhere later takes its place
  const last = useRef(Number(shown))
  useEffect(() => {
    last.current = Number(shown)
    setWritten((before) => (before !== null && figureOf(before) === Number(shown) ? before : null))
  }, [shown])
  useEffect(() => {
    const figure = written === null ? null : figureOf(written)
    if (figure === null || figure === last.current) return undefined
    const timer = setTimeout(() => {
      last.current = figure
      tell.current(figure)
    }, PAUSE_MS)
    return () => clearTimeout(timer)
  }, [written])
  const unread = written !== null && figureOf(written) === null && written !== ''
  return (
    <BlankEntry
      label={label}
      value={written ?? shown}
      open="…"
      numeric
      longest={7}
      wrong={unread ? FILMS_WORDS.noFigure : wrong}
      onEntry={setWritten}
    />
  )
}

function figureOf(written: string): number | null {
  const figure = Number(written.trim().replace(',', '.'))
  return written.trim() === '' || !Number.isFinite(figure) ? null : figure
}
