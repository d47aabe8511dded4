-- A screen that nobody finds, with a ghost in its fabric, after migration 0017. Invented.
update screen set state = 'lost', haze = true, tension_measured_at = '2026-09-15 08:00:00+00'
  where id = '01k5a1b2c3000000000000000e';
insert into screen_event values
  ('01k5a1b2c3000000000000001e', 'demo-screen-1', '01k5a1b2c3000000000000000e', 'state', 'lost',
    null, null, null, null, 'not in its slot', '01k5a1b2c3000000000000000d',
    '2026-09-15 08:00:00+00', '2026-09-15 08:00:01+00');
