-- A film laid on its screen under the lamp, and a scratch in that glass, after migration 0013. Invented.
insert into placement values
  ('01k5a1b2c3000000000000001e', '01k5a1b2c3000000000000000e', '01k5a1b2c3000000000000000a',
    310.5, 55, false, 150, 120, '2026-09-14 17:00:00+00', '2026-09-14 16:58:00+00');
insert into placed_film values
  ('01k5a1b2c3000000000000001e', '01k5a1b2c3000000000000000j', 101.5, 245.25, true);
insert into glass_mark values
  ('01k5a1b2c3000000000000001f', '01k5a1b2c3000000000000000a', 'demo scratch', 640, 610, 45, 70, null,
    '2026-09-14 17:00:00+00');
