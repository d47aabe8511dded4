/** Later than any day that is settled. */
export const FAR = '2100-12-31'
