import { useSyncExternalStore } from 'react'

/** Whether a media query holds now; follows it. */
export function useMedia(query: string): boolean {
  return useSyncExternalStore(
    (changed) => {
      const media = matchMedia(query)
      media.addEventListener('change', changed)
      return () => media.removeEventListener('change', changed)
    },
    () => matchMedia(query).matches,
  )
}

/** Below this the page is one column with its doors at the bottom. */
export const ONE_COLUMN = '(max-width: 47.99rem)'
