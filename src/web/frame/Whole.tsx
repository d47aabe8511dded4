import { Component, type ReactNode } from 'react'
import '../rooms/rooms.css'
import { SecondAct } from '../signs/Button.tsx'
import { FRAME_WORDS } from '../words.ts'

type Props = Readonly<{
  children: ReactNode
  /** In the dark, where no frame stands around it. */
  atBench?: boolean
}>

/**
 * A page, or, when it breaks, a sentence in its place: also when its code cannot be fetched, from a
 * server that was renewed meanwhile. What stands around it goes on. Give it the page's address as
 * its key: who goes on to another page finds that one whole.
 */
export class Whole extends Component<Props, Readonly<{ isBroken: boolean }>> {
  override readonly state = { isBroken: false }

  static getDerivedStateFromError(): Readonly<{ isBroken: boolean }> {
    return { isBroken: true }
  }

  override render(): ReactNode {
    if (!this.state.isBroken) return this.props.children
    if (this.props.atBench !== true) return <Broken />
    return (
      <div className="bench">
        <main id="page" tabIndex={-1} className="bench-main">
          <Broken />
        </main>
      </div>
    )
  }
}

function Broken(): ReactNode {
  return (
    <div className="not-built" role="alert">
      <h1>{FRAME_WORDS.broken}</h1>
      <p>{FRAME_WORDS.brokenMore}</p>
      <div>
        <SecondAct onPress={() => location.reload()}>{FRAME_WORDS.openAgain}</SecondAct>
      </div>
    </div>
  )
}
