/** Name of the picture, and who draws it into a file. */
export const PICTURES: Readonly<Record<string, (path: string) => Promise<void>>>
