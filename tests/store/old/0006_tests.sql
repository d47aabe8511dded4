-- What lamp, glass and notes had told as it stood after migration 0006. Invented.
insert into reading (id, kind, taken_at, unit_id, film_id, x_mm, y_mm, marks_density, note_line,
  created_at)
values ('01k5a1b2c3000000000000000q', 'outcome', '2026-09-14 11:20:00+00',
  '01k5a1b2c3000000000000000a', '01k5a1b2c3000000000000000j', 412.5, 305.25, 0.875,
  '2026-09-14, heron film, 47, good', '2026-09-14 11:21:00+00');
insert into band values
  ('01k5a1b2c3000000000000000q', 1, 47.5, 'good', null, null);
insert into lamp_timing values
  ('01k5a1b2c3000000000000000r', '01k5a1b2c3000000000000000a', '01k5a1b2c3000000000000000b',
    '2026-09-14 08:05:00+00', 'cold', 143.75, '[{"clockSec": 30, "count": 11.5}, {"clockSec": 90, "count": 52.25}]',
    '2026-09-14 08:10:00+00');
insert into evenness_survey values
  ('01k5a1b2c3000000000000000s', '01k5a1b2c3000000000000000a', '01k5a1b2c3000000000000000b',
    '2026-09-14 12:00:00+00', 1210, 905, 61.5, 0.05, 0.15, 21, '2026-09-14 12:10:00+00');
insert into evenness_wedge values
  ('01k5a1b2c3000000000000000s', 1, 102.5, 97.25, 6, 8),
  ('01k5a1b2c3000000000000000s', 2, 1107.5, 808.75, 5, null);
insert into calibration_reference values
  ('01k5a1b2c3000000000000000t', '2026-09-14 12:30:00+00', '01k5a1b2c3000000000000000d',
    '2026-09-14 12:30:00+00');
