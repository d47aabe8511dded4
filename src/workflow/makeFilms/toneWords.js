import { endsDotUm } from '../../core/halftone/scatteredDot.js';
/** What becomes of tones that a fabric cannot hold, a sentence an ink; none where all are printed. */
export function toneWords({ inks, halftone }) {
    if (halftone === null)
        return [];
    return inks.flatMap(({ name, tones }) => {
        if (tones === undefined)
            return [];
        const { least, most, scatters = false } = tones;
        const ends = [
            least > 0 ? `paler than ${percent(least)}` : '',
            most < 1 ? `fuller than ${percent(most)}` : '',
        ].filter((words) => words !== '');
        if (ends.length === 0)
            return [];
        const dotMm = (endsDotUm(halftone, tones) / 1000).toFixed(2);
        const become = scatters && halftone.kind === 'dot'
            ? `are made of scattered dots ${dotMm} mm wide`
            : 'go to the nearest that is printed, or to none or solid';
        return [`Tones of ${name} ${ends.join(' and ')} ${become}.`];
    });
}
function percent(share) {
    return `${Number((100 * share).toFixed(1))} %`;
}
//# sourceMappingURL=toneWords.js.map