import { Failure } from '../../core/failure.ts'

/** What a photo of a test lacks, in one sentence that says what to do. */
export function wrongPhoto(message: string): Failure {
  return new Failure('wrong input', message, { field: 'photo' })
}
