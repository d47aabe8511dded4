-- A unit in the sun, with its meter's reading, as it stood after migration 0009. Invented.
insert into unit values
  ('01k5a1b2c3000000000000000x', 'the demo roof', 'seconds', 0.09, null, null, null,
    '2026-09-14 13:10:00+00', 62);
