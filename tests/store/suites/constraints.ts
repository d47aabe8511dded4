import { sql } from 'kysely'
import { expect, test } from 'vitest'
import { FIRST_DENSITY, INCREMENT, WEDGE_STEPS } from '../../../src/core/calibration/wedge.ts'
import { EMULSION_RANGES } from '../../../src/core/emulsion/emulsion.ts'
import { FABRIC_THICKNESS } from '../../../src/core/fabric/deposit.ts'
import { THREAD, THREADS_PER_CM } from '../../../src/core/fabric/geometry.ts'
import { FILM_BASE } from '../../../src/core/film/contact.ts'
import { BASE_DENSITY } from '../../../src/core/film/density.ts'
import { DOSE, LAMP_DISTANCE } from '../../../src/core/light/doseField.ts'
import type { Range } from '../../../src/core/units/range.ts'
import { referencesOf } from '../../../src/store/backup/tablesInOrder.ts'
import { CONSTRAINTS } from '../../../src/store/database/constraints.ts'
import type { Bench } from './bench.ts'

/** Columns whose range the formulas know under a name. */
const RANGES: Readonly<Record<string, Range>> = {
  'fabric.threads_per_cm': THREADS_PER_CM,
  'fabric.thread_um': THREAD,
  'fabric.thickness_um': FABRIC_THICKNESS,
  'emulsion.gel_dose_lu': EMULSION_RANGES.gelDoseLu,
  'emulsion.penetration_depth_um': EMULSION_RANGES.penetrationDepthUm,
  'emulsion.a_per_um': EMULSION_RANGES.aPerUm,
  'emulsion.b_per_um': EMULSION_RANGES.bPerUm,
  'emulsion.c_per_lu': EMULSION_RANGES.cPerLu,
  'emulsion.gel_share': EMULSION_RANGES.gelShare,
  'base.base_density': BASE_DENSITY,
  'base.thickness_um': FILM_BASE,
  'lamp.distance_mm': LAMP_DISTANCE,
  'exposure.planned_dose_lu': DOSE,
  'reading.dose_lu': DOSE,
  'reading.first_density': FIRST_DENSITY,
  'reading.increment': INCREMENT,
  'reading.steps': WEDGE_STEPS,
  'evenness_survey.dose_lu': DOSE,
  'evenness_survey.first_density': FIRST_DENSITY,
  'evenness_survey.increment': INCREMENT,
  'evenness_survey.steps': WEDGE_STEPS,
  'band.dose_lu': DOSE,
}

/** What the schema promises as a whole, read from the schema itself. */
export function constraintSuite({ shop }: Bench): void {
  test('everything that may stand once has its sentence, and no sentence is for nothing', async () => {
    const { rows } = await sql<{ name: string }>`
      select c.relname as name from pg_index i
      join pg_class c on c.oid = i.indexrelid join pg_class t on t.oid = i.indrelid
      where i.indisunique and not i.indisprimary and t.relname not like 'kysely_%'
      and t.relnamespace = current_schema()::regnamespace`.execute(shop().database)
    expect(rows.map(({ name }) => name).sort()).toEqual(Object.keys(CONSTRAINTS).sort())
    for (const { sentence } of Object.values(CONSTRAINTS))
      expect(sentence).toMatch(/^[A-Z].*: .*[.]$/)
  })

  test('every reference can be followed back without reading the whole table', async () => {
    const { database } = shop()
    const { rows } = await sql<{ column: string }>`
      select t.relname || '.' || a.attname as column from pg_index i
      join pg_class t on t.oid = i.indrelid
      join pg_attribute a on a.attrelid = t.oid and a.attnum = i.indkey[0]`.execute(database)
    const indexed = new Set(rows.map(({ column }) => column))
    const bare = (await referencesOf(database))
      .map(({ table, column }) => `${table}.${column}`)
      .filter((column) => !column.startsWith('shop.') && !indexed.has(column))
    expect(bare).toEqual([])
  })

  test('ranges are those of the formulas', async () => {
    const limits = await limitsOf(shop().database)
    for (const [column, { low, high }] of Object.entries(RANGES)) {
      expect([column, limits.get(column)]).toEqual([column, { low, high }])
    }
  })

  test('no number goes unchecked, so NaN is nowhere let in', async () => {
    const { rows } = await sql<{ column: string; checks: string }>`
      select t.relname || '.' || a.attname as column,
        coalesce(string_agg(pg_get_constraintdef(c.oid), ' '), '') as checks
      from pg_attribute a join pg_class t on t.oid = a.attrelid
      left join pg_constraint c on c.conrelid = t.oid and c.contype = 'c' and a.attnum = any (c.conkey)
      where t.relkind = 'r' and t.relnamespace = current_schema()::regnamespace
      and a.atttypid = 'float8'::regtype and a.attnum > 0 and not a.attisdropped
      group by 1`.execute(shop().database)
    expect(rows.length).toBeGreaterThan(40)
    const open = rows.filter(({ column, checks }) => {
      const name = column.split('.')[1] ?? ''
      return !new RegExp(`\\(${name} <= `).test(checks)
    })
    expect(open.map(({ column }) => column)).toEqual([])
    await expect(
      sql`insert into frame values (${'0'.repeat(26)}, 'x', 'NaN', 400, null, null, now())`.execute(
        shop().database,
      ),
    ).rejects.toThrow(/frame_inside_width_mm_check/)
  })
}

async function limitsOf(
  database: Parameters<typeof referencesOf>[0],
): Promise<ReadonlyMap<string, Readonly<{ low: number; high: number }>>> {
  const { rows } = await sql<{ column: string; check: string }>`
    select t.relname || '.' || a.attname as column, pg_get_constraintdef(c.oid) as check
    from pg_constraint c join pg_class t on t.oid = c.conrelid
    join pg_attribute a on a.attrelid = t.oid and a.attnum = c.conkey[1]
    where c.contype = 'c' and cardinality(c.conkey) = 1`.execute(database)
  const number = String.raw`\(?'?(-?[\d.e+-]+)'?\)?(?:::double precision)?`
  const between = new RegExp(String.raw`>= ${number}\) AND \(\w+ <= ${number}\)`)
  const limits = rows.flatMap(({ column, check }) => {
    const [, low, high] = between.exec(check) ?? []
    return low === undefined ? [] : [[column, { low: Number(low), high: Number(high) }] as const]
  })
  return new Map(limits)
}
