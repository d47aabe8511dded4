import { minutesText } from '../bench/clockText.ts'

/** What clocks that follow somebody say. */
export const CLOCKS_WORDS = {
  label: 'Your clocks',
  room: 'Clocks that run',
  name: (title: string, about: string): string => `${title}, ${about}`,
  left: (sec: number): string => minutesText(sec),
  over: (sec: number): string => `${minutesText(Math.floor(sec))} over`,
  rinse: 'Rinse it now: it must not dry on.',
  rinsed: (screen: string): string => `Screen ${screen} is rinsed`,
  go: 'Go to the step',
  toScreen: (screen: string): string => `Screen ${screen}`,
  by: (person: string): string => `by ${person}`,
  spoken: (name: string): string => `${name}: time is up`,
} as const
