/** Width of a dot, in cells, of its area in cells. */
const WIDTH = {
    round: (area) => Math.sqrt((4 * area) / Math.PI),
    elliptical: (area) => Math.sqrt((4 * area) / (1.5 * Math.PI)),
    line: (area) => area,
};
/**
 * How wide scattered dots are that take over where a halftone's own grow too small: as wide as the
 * dots of its palest tone that holds, or as the islands of its fullest, whichever is more.
 */
export function endsDotUm(halftone, { least, most }) {
    if (halftone.kind === 'stochastic')
        return halftone.dotUm ?? 0;
    return (10_000 / halftone.rulingPerCm) * WIDTH[halftone.shape](Math.max(least, 1 - most));
}
//# sourceMappingURL=scatteredDot.js.map