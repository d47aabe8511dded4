-- A photo of a washed-out wedge, read, as it stood after migration 0011. Invented.
insert into photo values
  ('01k5a1b2c3000000000000001a', 'wedge', 'demo wedge.jpg',
    'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad', null, 4032, 3024,
    'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
    '{"corners": [{"x": 1, "y": 2}]}', '{"kind": "wedge"}', null, null, null,
    '2026-09-14 13:30:00+00', null);
