import type { ColumnType } from 'kysely'
import type { Artwork, ArtworkFilm } from '../artworks.ts'
import type { Base } from '../bases.ts'
import type { BlobRecord } from '../blobs/blobRecord.ts'
import type { ClockRecord } from '../clocks.ts'
import type { Coating } from '../coatings.ts'
import type { DayEvent, DayPlan } from '../dayPlans.ts'
import type { FailureRecord } from '../diagnosisFailures.ts'
import type { DiagnosisRow } from '../diagnosisRows.ts'
import type { EditionTally } from '../editionTallies.ts'
import type { Batch, Emulsion } from '../emulsions.ts'
import type { Evening } from '../evenings.ts'
import type { EvennessSurvey, EvennessWedge } from '../evenness.ts'
import type { Exposure } from '../exposures.ts'
import type { Fabric } from '../fabrics.ts'
import type { QueuedFilm } from '../filmQueue.ts'
import type { Film } from '../films.ts'
import type { Forecast } from '../forecasts.ts'
import type { Frame } from '../frames.ts'
import type { Incident } from '../incidents.ts'
import type { InkLimitRecord } from '../inkLimit.ts'
import type { Ink } from '../inks.ts'
import type { Job } from '../jobs.ts'
import type { LampTiming } from '../lampTimings.ts'
import type { LayerEvent } from '../layerEvents.ts'
import type { Medium } from '../media.ts'
import type { Money } from '../money.ts'
import type { Person } from '../people.ts'
import type { Photo } from '../photos.ts'
import type { GlassMark, PlacedFilm, Placement } from '../placements.ts'
import type { ColourCheck, FilmCover, PrintPlanRecord } from '../printPlans.ts'
import type { Band, Reading } from '../readings.ts'
import type { CalibrationReference } from '../references.ts'
import type { Run, RunEventRecord, StepList } from '../runs.ts'
import type { ScreenEvent } from '../screenEvents.ts'
import type { Screen } from '../screens.ts'
import type { Credential, Session } from '../sessions.ts'
import type { Shop } from '../shop.ts'
import type { SignOff } from '../signOffs.ts'
import type { InkStock, PaperStock } from '../stock.ts'
import type { Thing } from '../things.ts'
import type { Edition, Layer, Ticket } from '../tickets.ts'
import type { ToneCurveRecord } from '../toneCurves.ts'
import type { Lamp, Unit } from '../units.ts'
import type { UpkeepTask } from '../upkeep.ts'

/** A column of JSON: read as it is, written through `asJson`. */
type JsonColumn<Value> = ColumnType<Value, null, null>

/** A record whose named columns hold JSON. */
type WithJson<Record, Columns extends keyof Record> = Omit<Record, Columns> & {
  readonly [Column in Columns]: JsonColumn<Record[Column]>
}

/** Every table, as the queries see it; the migrations are the law. */
export interface Tables {
  readonly artwork: WithJson<Artwork, 'seen' | 'plan' | 'made'>
  readonly artworkFilm: ArtworkFilm
  readonly band: Band
  readonly base: Base
  readonly batch: Batch
  readonly blob: BlobRecord
  readonly calibrationReference: CalibrationReference
  readonly clock: ClockRecord
  readonly coating: Coating
  readonly credential: Credential
  readonly dayEvent: DayEvent
  readonly dayPlan: WithJson<DayPlan, 'asked'>
  readonly diagnosisRow: WithJson<DiagnosisRow, 'facts'>
  readonly colourCheck: WithJson<ColourCheck, 'readings'>
  readonly edition: Edition
  readonly editionTally: EditionTally
  readonly emulsion: Emulsion
  readonly evening: WithJson<Evening, 'belief'>
  readonly evennessSurvey: EvennessSurvey
  readonly evennessWedge: EvennessWedge
  readonly exposure: WithJson<Exposure, 'why'>
  readonly exposureFilm: Readonly<{ exposureId: string; filmId: string }>
  readonly fabric: Fabric
  readonly failure: WithJson<FailureRecord, 'yes' | 'no'>
  readonly film: WithJson<Film, 'marks' | 'byPhoto'>
  readonly filmCover: FilmCover
  readonly filmQueue: QueuedFilm
  readonly forecast: WithJson<Forecast, 'setup' | 'answer'>
  readonly frame: Frame
  readonly glassMark: GlassMark
  readonly incident: Incident
  readonly ink: Ink
  readonly inkLimit: InkLimitRecord
  readonly inkStock: InkStock
  readonly job: WithJson<Job, 'payload' | 'resumeFrom' | 'result'>
  readonly lamp: Lamp
  readonly lampTiming: WithJson<LampTiming, 'pairs'>
  readonly layer: Layer
  readonly layerEvent: LayerEvent
  readonly medium: Medium
  readonly money: Money
  readonly paperStock: PaperStock
  readonly person: Person
  readonly photo: WithJson<Photo, 'asked' | 'answer'>
  readonly placedFilm: PlacedFilm
  readonly placement: Placement
  readonly printPlan: WithJson<PrintPlanRecord, 'asked'>
  readonly reading: Reading
  readonly run: WithJson<Run, 'about' | 'steps'>
  readonly runEvent: RunEventRecord
  readonly screen: Screen
  readonly screenEvent: ScreenEvent
  readonly session: Session
  readonly shop: WithJson<Shop, 'shownFirst'>
  readonly signOff: SignOff
  readonly stepList: WithJson<StepList, 'entries'>
  readonly thing: WithJson<Thing, 'facts'>
  readonly ticket: Ticket
  readonly toneCurve: WithJson<ToneCurveRecord, 'tints'>
  readonly unit: Unit
  readonly upkeep: Readonly<{ task: UpkeepTask; doneAt: Date }>
}
