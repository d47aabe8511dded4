import { runState } from './progress.js';
/** Where a layer goes back to when its exposure stops for this cause. */
const STOPPED = {
    'screen thin': 'screen',
    'film below': 'film',
};
/**
 * A layer's road by its exposure: the lamp has gone out and it is exposed; washed out well and dry,
 * its water is done; a ground that came off, a thin coat or a film made the wrong way sends it back.
 * Marks that stayed shut leave it at the water: the check decides.
 *
 * @param events in the order they came; what came twice counts once
 */
export function roadOfRun(steps, events) {
    const told = [...new Map(events.map((event) => [event.key, event])).values()];
    const ordered = told.toSorted((a, b) => a.atMs - b.atMs);
    const lastStep = steps.some(({ name }) => name === 'dry') ? 'dry' : 'look';
    const road = [];
    let before = runState(steps, []);
    for (const [index, event] of ordered.entries()) {
        const after = runState(steps, ordered.slice(0, index + 1));
        const found = toldBy(event, { before, after, steps, lastStep });
        if (found !== null) {
            const { key, atMs } = event;
            road.push({ ...found, key: `${found.station}-${key}`.slice(0, LONGEST_KEY), atMs });
        }
        before = after;
    }
    return road;
}
const LONGEST_KEY = 64;
function toldBy(event, { before, after, steps, lastStep }) {
    if (after === before || (after.at === before.at && after.stopped === before.stopped))
        return null;
    const cause = steps
        .find(({ name }) => name === event.step)
        ?.causes.find(({ name }) => name === event.cause);
    if (after.stopped !== null) {
        const station = STOPPED[`${event.step} ${event.cause ?? ''}`];
        return station === undefined ? null : { kind: 'back', station, why: cause?.says ?? null };
    }
    if (event.kind === 'not right') {
        const isOff = event.step === 'look' && after.grade === 'washed off';
        return isOff ? { kind: 'back', station: 'screen', why: cause?.says ?? null } : null;
    }
    if (event.kind !== 'done')
        return null;
    if (event.step === 'lamp')
        return { kind: 'done', station: 'light', why: null };
    if (event.step === lastStep && after.grade === 'good') {
        return { kind: 'done', station: 'water', why: null };
    }
    return null;
}
//# sourceMappingURL=roadOfRun.js.map