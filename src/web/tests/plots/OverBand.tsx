import { type ReactNode, useId } from 'react'

/** Threads that cross a yellow band: dark on it, in the page's ink beside it. */
export function OverBand({ band, path }: Readonly<{ band: string; path: string }>): ReactNode {
  const clip = useId()
  return (
    <>
      <path className="plot-reading" d={path} />
      <clipPath id={clip}>
        <path d={band} />
      </clipPath>
      <path className="plot-reading plot-on-mesh" d={path} clipPath={`url(#${clip})`} />
    </>
  )
}
