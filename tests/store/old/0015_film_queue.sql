-- A screen on a layer, and a film that waits in the drawer, after migration 0015. Invented.
update layer set screen_id = '01k5a1b2c3000000000000000e'
  where id = '01k5a1b2c3000000000000000h';
insert into film_queue values
  ('01k5a1b2c3000000000000001e', 'demo-film-wanted-1', '01k5a1b2c3000000000000000h',
    'Demo heron, black', '01k5a1b2c3000000000000000d', '2026-09-15 08:00:00+00',
    '2026-09-15 09:00:00+00', 100, 99.75, '2026-09-15 09:05:00+00', 'drawer 2', null, null,
    '2026-09-15 08:00:00+00');
