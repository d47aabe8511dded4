import type { RunFacts, Step } from './step.ts'
import { cause, PLAIN } from './stepsAtLamp.ts'

/** Water takes this to reach the mesh through the coat. Judged. */
const SOAK_SEC = 60
/** 60 to 90 s with inspection: common practice, no source. */
const WASH_SEC = 90
/** Touch-dry with fans: common practice, no source. */
const DRY_SEC = 15 * 60
/** A lamp's fan before it is switched off: common practice, no source. */
const COOL_SEC = 10 * 60

/** The steps from the lamp that has gone out to the dry screen. Common practice, no source. */
export function stepsAtSink({ wedgeSteps }: RunFacts): readonly Step[] {
  return [
    {
      ...PLAIN,
      name: 'wet',
      title: 'Wet both sides',
      lines: [
        'Vacuum off, lid up and held, straight to the sink.',
        'Wet it softly, then let it soak.',
      ],
      caution:
        'Lamp and glass are hot. Keep water away from sockets. Gloves: the emulsion’s safety data sheet comes first.',
      done: 'It has soaked',
      clock: { sec: SOAK_SEC, start: 'Both sides are wet', since: 'wet' },
      causes: [
        cause('dry', 'A part stayed dry.', 'Wet it and soak again', 'wet'),
        cause('runs', 'Emulsion runs off at once.', 'Hold it to the light', 'look'),
      ],
      catches: ['rushed washout'],
    },
    {
      ...PLAIN,
      name: 'wash',
      title: 'Wash out, both sides',
      lines: ['Soft spray, an arm’s length away.', 'Stop early if everything is open.'],
      caution:
        'No pressure washer on a fresh stencil. Where one runs: its manual first, eyes and ears protected.',
      done: 'It is open everywhere',
      clock: { sec: WASH_SEC, start: 'The water is on', since: 'wash' },
      causes: [
        cause('shut', 'Some marks stay shut.', 'Wash once more, both sides', 'wash'),
        cause('slime', 'Slime runs inside.', 'Rinse that side softly', 'wash'),
        cause('gone', 'The ground comes off.', 'Water off: hold it to the light', 'look'),
      ],
      catches: ['rushed washout'],
    },
    {
      ...PLAIN,
      name: 'look',
      title: 'Hold it to the light',
      lines: ['Every mark is open, without a veil.', 'The ground stands, whole and sharp.'],
      done: 'Open and whole',
      causes: [
        cause('veil', 'A veil lies over everything.', 'Back to the water', 'wash'),
        {
          ...cause('shut', 'Thin marks stayed shut.', 'Note it: filled in', 'next'),
          grade: 'filled',
        },
        {
          ...cause('gone', 'The ground has come off.', 'Note it: washed off', 'next'),
          grade: 'washed off',
        },
      ],
      catches: ['rushed washout'],
    },
    {
      ...PLAIN,
      name: 'wedge',
      title: 'Read the wedge',
      lines: ['The last step that held whole, the first that washed clean.'],
      done: 'Note both',
      asks: { what: 'wedge', steps: wedgeSteps },
      causes: [cause('none', 'There is none to read.', 'Go on without it', 'next')],
    },
    {
      ...PLAIN,
      name: 'dry',
      title: 'Blot it and dry it',
      lines: ['Both sides, then into the cabinet.', 'What is left wet runs, and dries as a veil.'],
      done: 'It is dry',
      clock: { sec: DRY_SEC, start: 'It is in the cabinet', since: 'dry' },
      causes: [cause('damp', 'It is still cool to the finger.', 'Once more by the clock', 'dry')],
      catches: ['left wet'],
    },
    {
      ...PLAIN,
      name: 'cool',
      title: 'Let the lamp cool',
      lines: ['Its fan runs until the clock is through.', 'Leave it on for whoever is next.'],
      caution: 'Lamp and glass stay hot. The lamp’s manual says for how long.',
      done: 'All is tidy',
      clock: { sec: COOL_SEC, start: null, since: 'lamp' },
      causes: [cause('next', 'Somebody exposes after me.', 'Theirs to cool: go on', 'next')],
    },
  ]
}
