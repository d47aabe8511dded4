-- A drawing looked at with a film made of it, as they stood after migration 0016. Invented.
insert into artwork values
  ('01k5a1b2c30000000000000016', null, 'demo heron', 'demo heron.svg',
    'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
    '{"proportion": 1.375}', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
    null, '{"mode": "single", "widthMm": 412.5}', null,
    '{"widthMm": 432.25}', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
    '2026-09-21 10:00:00+00');
insert into artwork_film values
  ('01k5a1b2c30000000000000017', '01k5a1b2c30000000000000016', 1, 'demo black', 0.0625,
    'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
    'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad', null,
    '2026-09-21 10:05:00+00');
