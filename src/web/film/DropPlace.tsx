import { type DragEvent, type ReactNode, useId, useState } from 'react'
import { Icon } from '../signs/icons.tsx'
import './upload.css'

/** A file comes in by drop, from the disk, or from a phone's pictures. */
export function DropPlace({
  words: { drop, choose, takes },
  accept,
  onFile,
  isUnderWay,
}: Readonly<{
  words: Readonly<{ drop: string; choose: string; takes: string }>
  /** What is offered to be chosen, as a file entry names it. */
  accept: string
  onFile: (file: File) => void
  isUnderWay: boolean
}>): ReactNode {
  const [isOver, setOver] = useState(false)
  const id = useId()
  const take = (event: DragEvent): void => {
    event.preventDefault()
    setOver(false)
    const [file] = event.dataTransfer.files
    if (file !== undefined && !isUnderWay) onFile(file)
  }
  return (
    <div
      className={isOver ? 'drop drop-over' : 'drop'}
      onDragOver={(event) => {
        event.preventDefault()
        setOver(true)
      }}
      onDragLeave={() => setOver(false)}
      onDrop={take}
    >
      <Icon of="film" size={40} />
      <p className="drop-word">{drop}</p>
      <label htmlFor={id} className="drop-choose">
        {choose}
        <input
          id={id}
          type="file"
          accept={accept}
          disabled={isUnderWay}
          onChange={(event) => {
            const [file] = event.target.files ?? []
            event.target.value = '' // the same file may be chosen again
            if (file !== undefined) onFile(file)
          }}
        />
      </label>
      <p className="small">{takes}</p>
    </div>
  )
}

/** How far a file is on its way. */
export function Progress({ says, share }: Readonly<{ says: string; share: number }>): ReactNode {
  return (
    <>
      <p>{says}</p>
      <progress value={share} max={1} aria-label={says} />
    </>
  )
}
