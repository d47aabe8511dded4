import { z } from 'zod'
import { queryNumber } from './queryNumber.ts'
import { designQuestion, testsQuestion } from './tests.ts'

/** The film of a test strip, as its design says; `bands` and `doses` as the page showed them. */
export const stripPaper = designQuestion
  .extend({
    paper: z.enum(['a4', 'letter']).optional(),
    resolutionDpi: queryNumber(z.coerce.number().min(150).max(1440)).optional(),
  })
  .strict()

/** The sheet for the wall. */
export const wallPaper = testsQuestion
  .extend({ paper: z.enum(['a4', 'a3', 'letter', 'tabloid']).optional() })
  .strict()
