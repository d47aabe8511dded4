-- A sink, a burnt finger and a failed screen with its cause, after migration 0019. Invented.
insert into thing values
  ('01k5a1b2c3000000000000003a', 'station', 'demo sink', '{"places": 2}', '2026-09-14 17:00:00+00',
    null, '2026-09-14 17:00:00+00');
insert into incident values
  ('01k5a1b2c3000000000000003b', '2026-09-14 17:10:00+00', 'demo sink', 'a warm lamp was touched',
    'cold water', 'somebody', null, 'demo technician', '2026-09-14 17:12:00+00');
insert into failure values
  ('01k5a1b2c3000000000000003c', '2026-09-14 17:20:00+00', '01k5a1b2c3000000000000001c', '["veil"]',
    '[]', 'rinsed too little', 'rinsed too little', '2026-09-14 17:30:00+00',
    '2026-09-14 17:20:00+00');
