-- A layer that went back to its screen, sheets of it, and an edition card, after migration 0010. Invented.
insert into layer_event values
  ('01k5a1b2c3000000000000000y', 'demo-key-1', '01k5a1b2c3000000000000000h', 'back', 'screen', null,
    'the reeds stayed shut', null, '2026-09-14 13:20:00+00', null, '2026-09-14 13:20:00+00'),
  ('01k5a1b2c3000000000000000z', 'demo-key-2', '01k5a1b2c3000000000000000h', 'spoiled', null, 1,
    'a crease', '01k5a1b2c3000000000000000d', '2026-09-14 14:20:00+00', '2026-09-14 14:21:00+00',
    '2026-09-14 14:20:00+00');
insert into edition values
  ('01k5a1b2c3000000000000000g', 40, 3, 1, 'demo drawer 3', null, '2026-09-14 15:20:00+00');
