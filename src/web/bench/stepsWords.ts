/** What the page of a shop's own steps says. */
export const STEPS_WORDS = {
  lead: 'What the bench shows one by one, for ',
  unit: 'exposure unit',
  fetching: 'Fetching the steps …',
  change: (title: string): string => `Change ${title}`,
  changeWord: 'Change',
  name: 'What to do',
  example: 'Sweep the floor',
  first: 'What to check, first line',
  second: 'What to check, second line',
  seconds: 'Its clock',
  secondsUnit: 's',
  clockSaid: (sec: string): string =>
    Number(sec) >= 120 && Number(sec) % 60 === 0 ? `${Number(sec) / 60} minutes` : `${sec} seconds`,
  takeOut: 'Take it out',
  addAfter: 'Add a step after it',
  kept: 'It stays: something can hurt there, or the exposure hangs on it.',
  own: 'a step of your own',
  putBack: (title: string): string => `Put back: ${title}`,
  act: 'Keep these steps',
  usual: 'The usual steps again',
  done: 'Kept: exposures that begin from now on go by them.',
  doneUsual: 'The usual steps hold again.',
  first24:
    'A title has up to 24 letters, a line up to 64: so they are read at a glance. The doses are an example’s.',
} as const
