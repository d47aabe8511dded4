import { type ReactNode, useEffect } from 'react'
import './bench.css'
import { BenchStart } from './BenchStart.tsx'
import { useDevice } from './device.ts'
import { keepPages } from './keepPages.ts'
import { RunPage } from './RunPage.tsx'

/** At the lamp and at the sink: one step, one clock, nothing bright. */
export function BenchPage({ run }: Readonly<{ run: string | null }>): ReactNode {
  const [device, change] = useDevice()
  useEffect(() => {
    document.documentElement.dataset['light'] = device.light
    return () => {
      delete document.documentElement.dataset['light']
    }
  }, [device.light])
  useEffect(keepPages, [])
  return (
    <div className="bench">
      {run === null ? (
        <BenchStart device={device} onDevice={change} />
      ) : (
        <RunPage key={run} id={run} device={device} />
      )}
    </div>
  )
}
