import type { SignName } from './signNames.ts'

/** What may be seen of a failed screen, known of its making, or found out by a test. */
export type Sign = Readonly<{
  /** Where one sees it; `known`: of how it was made. */
  where: 'at the sink' | 'against the light' | 'at the press' | 'at reclaim' | 'known'
  says: string
  /** How often it is there though its cause is another one, 0..1. */
  elsewhere: number
  /** How to find out, and how long that takes; null: one sees it or knows it. */
  test: Readonly<{ how: string; minutes: number }> | null
}>

/** Every sign by its name. How often each is there for another reason is judged. */
export const SIGNS: Readonly<Record<SignName, Sign>> = {
  'ground washes off': sign('at the sink', 'The ground washes off.', 0.02),
  'patches come off': sign('at the sink', 'Patches of the ground come off.', 0.04),
  'slime inside': sign('at the sink', 'Slime runs on the squeegee side.', 0.05),
  'soft ground': sign('at the sink', 'The ground is soft and easily hurt.', 0.06),
  'nothing opens': sign('at the sink', 'Nothing opens, whatever one does.', 0.02),
  'slow to open': sign('at the sink', 'It opens slowly, with much water.', 0.06),
  'thin marks shut': sign('at the sink', 'Thin or pale marks stay shut.', 0.08),
  veil: sign('against the light', 'A clear veil lies over open marks.', 0.04),
  pinholes: sign('against the light', 'There are pinholes.', 0.08),
  'same place again': sign(
    'against the light',
    'The pinholes stand where they stood last time.',
    0.02,
    look('Lay the last screen beside this one, then look along the glass with a torch.', 3),
  ),
  'round thin spots': sign('against the light', 'There are round thin spots in the coat.', 0.02),
  'ragged edges': sign('against the light', 'Edges follow the threads, like stairs.', 0.03),
  'soft edges': sign('against the light', 'Edges are soft or fuzzy.', 0.05),
  'marks narrower': sign('against the light', 'Marks are narrower than on the film.', 0.04),
  'blurred in one place': sign('against the light', 'It is blurred in one place only.', 0.02),
  'one side weak': sign('against the light', 'One side or corner is weaker.', 0.02),
  mirrored: sign('against the light', 'It reads mirrored.', 0.002, look('Read a letter on it.', 1)),
  'pinholes in print': sign('at the press', 'Pinholes come while printing.', 0.05),
  'breaks down in print': sign('at the press', 'The stencil breaks down while printing.', 0.04),
  'tacky in print': sign('at the press', 'The stencil turns soft or tacky at the press.', 0.03),
  'stencil stays on': sign('at reclaim', 'The remover does not take the stencil off.', 0.03),
  'ghost in the fabric': sign('at reclaim', 'A ghost of the image stays in the fabric.', 0.08),

  'under the dose': sign('known', 'It got less light than planned.', 0.05),
  'over the dose': sign('known', 'It got more light than planned.', 0.05),
  'lamp down': sign('known', 'The lamp gives less than it did.', 0.08),
  'every screen lately': sign('known', 'Other screens failed alike lately.', 0.15),
  'dried short': sign('known', 'It dried for a short time.', 0.1),
  'damp air': sign('known', 'The room was damp.', 0.2),
  'dried hot': sign('known', 'It dried in the heat.', 0.04),
  'dried in dust': sign('known', 'It dried in a draught or in dust.', 0.06),
  'light got in': sign('known', 'Light got at it before its time.', 0.04),
  'coating old': sign('known', 'It was coated long ago.', 0.08),
  'bucket old': sign('known', 'The bucket is past its date.', 0.05),
  'vacuum low': sign(
    'known',
    'The vacuum stayed low.',
    0.04,
    look('Draw the blanket down on a bare screen and read the gauge.', 3),
  ),
  'little latitude': sign('known', 'Few doses suit this film at all.', 0.2),
  'hard spray': sign('known', 'The spray was hard or near.', 0.08),
  'kept long': sign('known', 'It stood for weeks after printing.', 0.1),
  'remover dried': sign('known', 'The remover dried on it.', 0.02),

  'wedge low': sign(
    'known',
    'A wedge holds fewer steps than it used to.',
    0.1,
    look(
      'Expose a wedge on a dry screen with the usual dose: does it hold fewer steps than on the chart?',
      20,
    ),
  ),
  'film pale': sign(
    'known',
    'Light comes through the film’s black.',
    0.1,
    look('Hold the film against a lamp: does light come through its marks?', 1),
  ),
  'coat thin': sign(
    'known',
    'The weave shows through the coat.',
    0.08,
    look(
      'Hold a coated screen against the yellow light: do the threads show on the print side?',
      1,
    ),
  ),
  'unexposed stays': sign(
    'known',
    'A coat that saw no light does not wash out.',
    0.02,
    look('Wash a corner that lay under black tape: does it stay shut?', 4),
  ),
  'more water opens': sign(
    'known',
    'Another minute of water opens it.',
    0.1,
    look('Wet it again and wash one minute more, both sides: does it open?', 2),
  ),
  'longer drying helps': sign(
    'known',
    'A second screen, dried twice as long, holds.',
    0.05,
    look('Dry a second screen twice as long, then give it the same dose: does it hold?', 90),
  ),
}

/** True for the name of a sign. */
export function isSign(name: string): name is SignName {
  return Object.hasOwn(SIGNS, name)
}

function sign(
  where: Sign['where'],
  says: string,
  elsewhere: number,
  test: Sign['test'] = null,
): Sign {
  return { where, says, elsewhere, test }
}

function look(how: string, minutes: number): Sign['test'] {
  return { how, minutes }
}
