-- A film read from a photo without a wedge, as it stood after migration 0022. Invented.
insert into film (id, kind, name, status, original_blob, created_at, by_photo) values
  ('01k5a1b2c3000000000000002m', 'read', 'demo by photo', 'waiting',
    'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad', '2026-09-16 09:00:00+00',
    '{"densitySd": 0.23, "densityRange": {"low": 0, "high": 1.4}, "smallestLineUm": 240, "wedge": false, "looksLike": null}');
