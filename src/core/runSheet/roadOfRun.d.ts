import type { StationName } from '../ticket/road.ts';
import { type RunEvent } from './progress.ts';
import type { Step } from './step.ts';
/** What an exposure tells of its layer's road. */
export type RoadTold = Readonly<{
    /** Of the event that says so, made on its device: told twice, it is one. */
    key: string;
    kind: 'done' | 'back';
    station: StationName;
    why: string | null;
    atMs: number;
}>;
/**
 * A layer's road by its exposure: the lamp has gone out and it is exposed; washed out well and dry,
 * its water is done; a ground that came off, a thin coat or a film made the wrong way sends it back.
 * Marks that stayed shut leave it at the water: the check decides.
 *
 * @param events in the order they came; what came twice counts once
 */
export declare function roadOfRun(steps: readonly Step[], events: readonly RunEvent[]): readonly RoadTold[];
