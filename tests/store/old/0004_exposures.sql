-- An exposure and the readings after it as they stood after migration 0004. Invented.
insert into exposure values
  ('01k5a1b2c3000000000000000k', '01k5a1b2c3000000000000000e', '01k5a1b2c3000000000000000f',
    '01k5a1b2c3000000000000000a', '01k5a1b2c3000000000000000b', '01k5a1b2c3000000000000000d',
    42.5, 36, 47, 0.8125, '["last wedge 12 days ago"]', 25, 25.5, 93.5,
    '2026-09-14 10:30:00+00', '2026-09-14 10:25:00+00');
insert into exposure_film values
  ('01k5a1b2c3000000000000000k', '01k5a1b2c3000000000000000j');
insert into reading (id, kind, taken_at, exposure_id, unit_id, lamp_hours, emulsion_id, fabric_id,
  screen_id, dose_lu, first_density, increment, steps, last_solid_step, first_clear_step, created_at)
values ('01k5a1b2c3000000000000000m', 'wedge', '2026-09-14 11:00:00+00',
  '01k5a1b2c3000000000000000k', '01k5a1b2c3000000000000000a', 143.5, '01k5a1b2c30000000000000004',
  '01k5a1b2c30000000000000001', '01k5a1b2c3000000000000000e', 42.5, 0.05, 0.15, 21, 6, 8,
  '2026-09-14 11:01:00+00');
insert into reading (id, kind, taken_at, unit_id, medium_id, created_at)
values ('01k5a1b2c3000000000000000n', 'outcome', '2026-09-14 11:05:00+00',
  '01k5a1b2c3000000000000000a', '01k5a1b2c30000000000000008', '2026-09-14 11:05:00+00');
insert into band values
  ('01k5a1b2c3000000000000000n', 1, 42.6, null, 'sound', 'open');
