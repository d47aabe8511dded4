-- A photo of a film and one of a screen as they stood after migration 0008. Invented.
insert into photo values
  ('01k5a1b2c3000000000000000v', 'film', 'demo heron.jpg',
    'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad', null, 4032, 3024,
    'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad', '{"sizeMm": {"widthMm": 297}}',
    '{"densitySd": 0.06}', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
    'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad', null,
    '2026-09-14 13:00:00+00', null),
  ('01k5a1b2c3000000000000000w', 'screen', 'demo screen.jpg',
    'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
    '01k5a1b2c3000000000000000j', null, null, null, null, null, null, null,
    'The demo photo is cut off: take it again.', '2026-09-14 13:05:00+00', null);
