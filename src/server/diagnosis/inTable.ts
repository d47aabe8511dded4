import type { ConfirmedFailure } from '../../core/diagnosis/learned.ts'
import type { DiagnosisTable } from '../../core/diagnosis/table.ts'
import { Failure } from '../../core/failure.ts'
import type { FailureRecord } from '../../store/diagnosisFailures.ts'

/** A table learns from so many failures at most, the newest. */
export const MOST_LEARNED = 1000

/** Failures that teach the table something: their cause was found out, and is in it. */
export function confirmedOf(
  known: readonly FailureRecord[],
  table: DiagnosisTable,
): readonly ConfirmedFailure[] {
  return known.flatMap(({ cause, yes, no }) =>
    cause === null || !table.causes.has(cause) ? [] : [{ cause, signs: { yes, no } }],
  )
}

/** @throws Failure 'wrong input' for a sign that the table does not have */
export function signsIn(
  names: readonly string[],
  { table, field }: Readonly<{ table: DiagnosisTable; field: string }>,
): readonly string[] {
  const strange = names.find((name) => !table.signs.has(name))
  if (strange === undefined) return [...new Set(names)]
  const message = `There is no sign called “${strange}”: take one from the list.`
  throw new Failure('wrong input', message, { field })
}

/** @throws Failure 'wrong input' for a cause that the table does not have */
export function expectCause(cause: string, table: DiagnosisTable): void {
  if (table.causes.has(cause)) return
  const message = `There is no cause called “${cause}”: take one from the list.`
  throw new Failure('wrong input', message, { field: 'cause' })
}
