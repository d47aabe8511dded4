-- Files, a ticket and its film as they stood after migration 0003. Invented.
insert into blob values
  ('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad', 3, 'image/png',
    '2026-09-14 08:16:00+00');
insert into ticket values
  ('01k5a1b2c3000000000000000g', 'H7', 'Demo heron', '01k5a1b2c3000000000000000d', 'demo 250 g',
    44, null, '2026-09-14 08:17:00+00');
insert into layer values
  ('01k5a1b2c3000000000000000h', '01k5a1b2c3000000000000000g', 1, '01k5a1b2c30000000000000009',
    'H7-K', '2026-09-14 08:18:00+00');
insert into film (id, layer_id, kind, name, owner_id, base_id, medium_id, status, original_blob,
  file_name, resolution_dpi, width_mm, height_mm, pixel_um, marks, read_at, created_at)
values ('01k5a1b2c3000000000000000j', '01k5a1b2c3000000000000000h', 'read', 'Demo heron, black',
  '01k5a1b2c3000000000000000d', '01k5a1b2c30000000000000007', '01k5a1b2c30000000000000008', 'ready',
  'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad', 'heron.png', 720,
  297.125, 420.0625, 35.27, '[{"xMm": 12.5}]', '2026-09-14 08:20:00+00', '2026-09-14 08:19:00+00');
insert into forecast values
  ('01k5a1b2c3000000000000000j',
    '2c26b46b68ffc68ff99b453c1d30413413422d706483bfa0f98a5e886266e7ae', 2,
    '{"lamp": {"distanceMm": 815}}', '{"lowLu": 31.5}', null, '2026-09-14 08:21:00+00',
    '2026-09-14 08:21:00+00');
