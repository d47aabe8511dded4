import type { KnownFacts, RunFacts, Step } from './step.ts'

/** A blanket draws down within this. Judged: the gauge decides, the clock only keeps one waiting. */
const VACUUM_SEC = 60

/**
 * The steps from the rack to the lamp that has gone out. What is checked is common practice, no
 * source; manuals and the room's rules come first.
 */
export function stepsAtLamp(facts: RunFacts): readonly Step[] {
  return [...beforeTheLid(facts), ...underTheLid(facts)]
}

function beforeTheLid({ screen, subject, known }: RunFacts): readonly Step[] {
  const { screenKnown, glassKnown, filmKnown, placeKnown } = saidOf(known)
  return [
    {
      ...PLAIN,
      known: screenKnown,
      name: 'screen',
      title: 'Take the screen',
      lines: [
        screen === null
          ? 'Yours, of the right fabric, and dry to the back of a finger.'
          : `Its tag says ${screen}; it is dry to the back of a finger.`,
        'The coat is even, heavier on the print side; no pinholes.',
      ],
      done: 'It is the one, and dry',
      causes: [
        cause(
          'damp',
          'It is cool or soft to the finger.',
          'Back to the cabinet, then here',
          'screen',
        ),
        cause('thin', 'It is thin, or heavier inside.', 'Coat it again: stop here', 'end'),
        cause('other', 'It is another screen or fabric.', 'Fetch the right one', 'screen'),
      ],
      catches: ['not dry', 'thin or wrong-sided coat', 'film moved, near the frame, wrong fabric'],
    },
    {
      ...PLAIN,
      known: glassKnown,
      name: 'glass',
      title: 'Wipe the glass',
      lines: ['Glass and blanket are clean and dry.', 'No hair, no dust, no tape is left on them.'],
      done: 'Clean and dry',
      causes: [
        cause('damp', 'The glass is damp.', 'Dry it and look again', 'glass'),
        cause(
          'speck',
          'A speck will not go.',
          'It is in the glass: lay the film beside it',
          'film',
        ),
      ],
      catches: ['dust under the film'],
    },
    {
      ...PLAIN,
      known: filmKnown,
      name: 'film',
      title: 'Lay the film',
      lines: [
        'Seen from above letters read right. The image side is up.',
        `Held to the light, all of the ${subject} is dark.`,
      ],
      done: 'Reads right, image side up',
      causes: [
        cause('mirrored', 'It reads mirrored.', 'Turn it over', 'film'),
        cause(
          'below',
          'It reads right, image side down.',
          'Print it the other way: stop here',
          'end',
        ),
        cause('pale', 'Some marks are pale.', 'Go over them, then here', 'film'),
      ],
      catches: ['film flipped', 'weak marks'],
    },
    {
      ...PLAIN,
      known: placeKnown,
      name: 'lay',
      title: 'Lay the screen on it',
      lines: [
        'Print side down. The film keeps a hand’s width from the frame.',
        'A cord from the frame to the pump leaves the air a way out.',
      ],
      done: 'Clear all round, cord laid',
      causes: [
        cause('moved', 'The film has moved.', 'Lay it again', 'film'),
        cause('near', 'It is too near the frame.', 'Move it, or take a larger frame', 'film'),
        cause('other', 'This fabric is another one.', 'Fetch the right screen', 'screen'),
      ],
      catches: ['film moved, near the frame, wrong fabric'],
    },
  ]
}

/** What is known, in sentences for the steps before the lid; each mistake at its own. */
function saidOf(known: KnownFacts | undefined) {
  if (known === undefined) return NOTHING_KNOWN
  const { dryAt, goodUntil, ticketScreen, glassMarks, weakMarks, place } = known
  const list = (...all: readonly (string | null)[]): readonly string[] =>
    all.flatMap((each) => each ?? [])
  return {
    screenKnown: list(
      dryAt === null ? null : `Not before ${dryAt}: the coat is still drying.`,
      goodUntil === null ? null : `The coat was good until ${goodUntil}: coat another one.`,
      ticketScreen === null ? null : `The film’s ticket says screen ${ticketScreen}, not this one.`,
    ),
    glassKnown: list(
      glassMarks === 0
        ? null
        : `${glassMarks === 1 ? 'One mark' : `${glassMarks} marks`} in this glass: lay the film beside.`,
    ),
    filmKnown: list(
      weakMarks === 0
        ? null
        : `The forecast rings ${weakMarks === 1 ? 'one passage' : `${weakMarks} passages`}: hold them to the light.`,
    ),
    placeKnown: list(
      place === null
        ? null
        : `By its plan ${Math.round(place.leftMm)} mm from the left, ${Math.round(place.topMm)} mm from the far side.`,
    ),
  }
}

const NOTHING_KNOWN = { screenKnown: [], glassKnown: [], filmKnown: [], placeKnown: [] }

function underTheLid(facts: RunFacts): readonly Step[] {
  const { gauge = null } = facts
  return [
    {
      ...PLAIN,
      name: 'lid',
      title: 'Lower the lid',
      lines: ['Gently, with both hands, then latch it.', 'Nothing under it may slide.'],
      caution: 'The lid is heavy. Hold it until it rests, fingers out.',
      done: 'It rests and is latched',
      causes: [
        cause('slid', 'Something slid.', 'Open it and lay it again', 'lay'),
        cause('latch', 'It will not latch.', 'Look what lies in its way', 'lid'),
      ],
    },
    {
      ...PLAIN,
      name: 'vacuum',
      title: 'Pull the vacuum',
      lines: [
        gauge === null
          ? 'No lamp before the gauge stands where it always does.'
          : `No lamp before the gauge stands at about ${plain(gauge)}.`,
        'The blanket is drawn in all round, with no bubble.',
      ],
      done: 'The gauge stands there',
      clock: { sec: VACUUM_SEC, start: 'The pump runs', since: 'vacuum' },
      asks: { what: 'gauge', usual: gauge },
      causes: [
        cause('bubble', 'A bubble stays.', 'Smooth it and wait again', 'vacuum'),
        cause('low', 'The gauge stays low.', 'Open it: cord, rim, blanket', 'lay'),
        cause('pump', 'The pump does not pull.', 'Tell the technician: stop here', 'end'),
      ],
      catches: ['no vacuum'],
    },
    setStep(facts),
    lampStep(facts),
    readStep(facts),
  ]
}

function setStep({ dose, countsIn }: RunFacts): Step {
  return {
    ...PLAIN,
    name: 'set',
    title: `Set ${plain(dose.value)} ${countsIn}`,
    lines: [
      `${plain(dose.low)} to ${plain(dose.high)} should work.`,
      'Then look at the counter again: what does it say?',
    ],
    done: 'It says',
    asks: { what: 'set', start: rounded(dose.value), ...ends(dose), unit: countsIn },
    causes: [
      cause('meant', 'Another dose is meant.', 'Keep the number as it stands', 'next'),
      cause(
        'unit',
        countsIn === 'seconds' ? 'It counts no seconds.' : 'It counts no light units.',
        'Ask for this lamp’s own dose: stop here',
        'end',
      ),
    ],
    catches: ['wrong dose'],
  }
}

function lampStep({ litSec }: RunFacts): Step {
  return {
    ...PLAIN,
    name: 'lamp',
    title: 'Light the lamp',
    lines: [expected(litSec), 'Stay beside it until it has gone out.'],
    caution:
      'Do not look at the lamp: its UV hurts eyes and skin. It lights only with the lid closed; leave that switch alone.',
    done: 'It has gone out',
    clock: { sec: litSec?.high ?? null, start: 'It is lit', since: 'lamp' },
    causes: [
      cause('dark', 'It does not light.', 'Look at lid and latch, then the manual', 'lid'),
      cause('other', 'It took another time than this.', 'Read what it counted', 'next'),
      cause('air', 'The vacuum fell meanwhile.', 'Let it end, then look hard at the edges', 'next'),
    ],
  }
}

function readStep({ dose, countsIn }: RunFacts): Step {
  return {
    ...PLAIN,
    name: 'read',
    title: 'What did it count?',
    lines: ['Read the counter before anybody resets it.'],
    done: 'It says',
    asks: { what: 'read', start: rounded(dose.value), ...ends(dose), unit: countsIn },
    causes: [cause('lost', 'It was reset already.', 'Go on without the number', 'next')],
    catches: ['wrong dose'],
  }
}

/** What every step has that says nothing of it. */
export const PLAIN = { caution: null, clock: null, asks: null, catches: [] } as const

export function cause(
  name: string,
  says: string,
  act: string,
  to: string,
): Readonly<{ name: string; says: string; act: string; to: string; grade: null }> {
  return { name, says, act, to, grade: null }
}

function expected(litSec: RunFacts['litSec']): string {
  if (litSec === null) return 'Nobody has timed this lamp yet: the clock here will.'
  const [low, high] = [plain(litSec.low), plain(litSec.high)]
  return low === high
    ? `It should be lit for about ${low} seconds.`
    : `It should be lit for ${low} to ${high} seconds, by how warm it is.`
}

function ends({ low, high }: RunFacts['dose']): Pick<RunFacts['dose'], 'low' | 'high'> {
  return { low, high }
}

/** As counters show it: whole from 10 up, tenths below. */
function rounded(count: number): number {
  return count < 10 ? Math.round(count * 10) / 10 : Math.round(count)
}

function plain(count: number): string {
  return String(rounded(count))
}
