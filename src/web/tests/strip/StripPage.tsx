import { type ReactNode, useEffect, useMemo, useState } from 'react'
import { PATHS } from '../../../api/paths.ts'
import type { TestDesign, Tests } from '../../../api/tests.ts'
import { type FilmPaper, testFilmCoverMm } from '../../../workflow/papers/testFilmLayout.ts'
import { doseText } from '../../figures.ts'
import { Standing } from '../../frame/Standing.tsx'
import { Link, ROUTES, useWay } from '../../router.tsx'
import { Blank } from '../../signs/Blank.tsx'
import { TenFrames } from '../../signs/TenFrames.tsx'
import { useAsked } from '../../useAsked.ts'
import { Back } from '../Back.tsx'
import { today } from '../days.ts'
import { FILM_PAPERS, usualPaper } from '../papers.ts'
import { keepStrip } from '../read/plannedStrip.ts'
import { SetUpBlanks } from '../SetUpSentence.tsx'
import { type SetUp, setUpOf, withWords } from '../setUp.ts'
import { StripPicture } from './StripPicture.tsx'
import { StripSteps } from './StripSteps.tsx'
import './strip.css'
import { STRIP_WORDS } from './stripWords.ts'

const BANDS = [3, 4, 5, 6, 7, 8, 9, 10, 11, 12].map((count) => ({
  id: String(count),
  name: STRIP_WORDS.count(count),
}))

/** Which strip to make: its doses, where the card lies, what to set. */
export function StripPage(): ReactNode {
  const { search, go } = useWay()
  const setUp = useMemo(() => setUpOf(search), [search])
  const said = useMemo(() => new URLSearchParams(search), [search])
  const [medium, bands] = [said.get('medium') ?? '', said.get('bands') ?? '']
  const words = useMemo(() => ({ ...setUp, medium, bands }), [setUp, medium, bands])
  const [asked, askAgain] = useAsked<TestDesign>(
    useMemo(() => ({ path: withWords(PATHS.testDesign, words) }), [words]),
  )
  const [tests] = useAsked<Tests>(useMemo(() => ({ path: withWords(PATHS.tests, setUp) }), [setUp]))
  const change = (changed: Partial<SetUp> & { medium?: string; bands?: string }): void =>
    go(withWords(ROUTES.strip, { ...words, ...changed }), 'replace')
  const [paper, setPaper] = useState<FilmPaper>(usualPaper)
  const design = asked.answer
  const coverMm =
    design === null ? [] : testFilmCoverMm({ bands: design.bands.length, paper }).slice(1)
  const isOld = asked.now === 'working' || asked.now === 'refused'
  return (
    <div className={isOld ? 'strip tests-old' : 'strip'} aria-busy={isOld}>
      <div className="strip-left">
        <Back setUp={setUp} />
        <h1>{STRIP_WORDS.title}</h1>
        {design === null ? (
          <p className="soft">{STRIP_WORDS.nothing}</p>
        ) : (
          tests.answer !== null && (
            <p className="tests-sentence">
              {STRIP_WORDS.lead}{' '}
              <Blank
                label={STRIP_WORDS.medium}
                value={design.asked.medium.id}
                choices={tests.answer.choices.media}
                onChoice={(chosen) => change({ medium: chosen })}
              />{' '}
              {STRIP_WORDS.on}{' '}
              <SetUpBlanks
                tests={{ asked: design.asked, choices: tests.answer.choices }}
                onChange={change}
              />{' '}
              {STRIP_WORDS.of}{' '}
              <Blank
                label={STRIP_WORDS.bands}
                value={bands}
                choices={BANDS}
                open={STRIP_WORDS.asBest}
                onChoice={(count) => change({ bands: count })}
              />
              .
            </p>
          )
        )}
        <Standing asked={asked} working={STRIP_WORDS.working} onAgain={askAgain} />
        {design !== null && <Worth design={design} />}
        {design !== null && <StripSteps design={design} coverMm={coverMm} />}
      </div>
      {design !== null && (
        <div className="strip-right">
          <StripPicture design={design} />
          <Papers words={words} paper={paper} onPaper={setPaper} />
          <ToTelling design={design} setUp={setUp} />
        </div>
      )}
    </div>
  )
}

/** How sure we are, and how sure we would be. */
function Worth({ design }: Readonly<{ design: TestDesign }>): ReactNode {
  const { before, after, minutes, twoFilms } = design
  const [value, low, high] = [before.dose.value, before.dose.low, before.dose.high].map(doseText)
  return (
    <div className="strip-worth">
      <div className="in-ten">
        <TenFrames good={before.screensInTen} />
        <p>
          <strong>{STRIP_WORDS.now(before.screensInTen)}</strong>
          {STRIP_WORDS.nowMore(value ?? '', low ?? '', high ?? '')}
        </p>
      </div>
      <div className="in-ten">
        <TenFrames good={after.screensInTen} />
        <p>
          <strong>{STRIP_WORDS.after(after.screensInTen)}</strong>
          {STRIP_WORDS.afterMore(
            String(Math.round(minutes)),
            doseText(after.lowLu),
            doseText(after.highLu),
          )}
        </p>
      </div>
      <p className="small">
        {STRIP_WORDS.twoFilms(
          twoFilms.screensInTen,
          String(Math.round(twoFilms.minutes)),
          doseText(twoFilms.lowLu),
          doseText(twoFilms.highLu),
        )}
      </p>
    </div>
  )
}

function Papers({
  words,
  paper,
  onPaper,
}: Readonly<{
  words: Readonly<Record<string, string>>
  paper: FilmPaper
  onPaper: (paper: FilmPaper) => void
}>): ReactNode {
  return (
    <div className="strip-papers">
      <p>
        {STRIP_WORDS.paper}{' '}
        <Blank
          label={STRIP_WORDS.paperLabel}
          value={paper}
          choices={FILM_PAPERS}
          onChoice={(id) => onPaper(id === 'letter' ? 'letter' : 'a4')}
        />
        . <span className="soft">{STRIP_WORDS.pdfMore}</span>
      </p>
      <a className="act act-wide" href={withWords(PATHS.stripPdf, { ...words, paper })}>
        {STRIP_WORDS.pdf}
      </a>
      <a className="second-act" href={withWords(PATHS.stripTiff, { ...words, paper })}>
        <span>{STRIP_WORDS.tiff}</span>
      </a>
    </div>
  )
}

/** The doses wait there already: this device keeps the strip it planned last. */
function ToTelling({ design, setUp }: Readonly<{ design: TestDesign; setUp: SetUp }>): ReactNode {
  useEffect(() => keepStrip(design, today()), [design])
  return (
    <Link
      to={withWords(ROUTES.read, { ...setUp, what: 'strip', medium: design.asked.medium.id })}
      className="second-act"
    >
      <span>{STRIP_WORDS.afterwards}</span>
    </Link>
  )
}
