-- A class of one, whose screen failed, after migration 0020. Invented.
insert into day_plan values
  ('01k5a1b2c3000000000000003d', 'Demo Thursday', '2026-09-17 13:30:00+00', '2026-09-17 17:00:00+00',
    '{"people": []}', null, '2026-09-14 18:00:00+00');
insert into day_event values
  ('01k5a1b2c3000000000000003e', 'demo-day-1', '01k5a1b2c3000000000000003d', 'failed', 'Demo Tam', 1,
    'wash out', null, '2026-09-17 15:00:00+00', '2026-09-17 15:00:00+00');
