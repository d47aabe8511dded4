/** Whether this is `npm run test:long`: more rounds of what `npm test` has only time to sample. */
export const THOROUGH: boolean = process.env['THOROUGH'] === 'yes'
