/** A tone of this much is solid; a threshold is less. */
export const SOLID = 65_535
