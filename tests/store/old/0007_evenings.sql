-- An evening as it was kept after migration 0007. Invented.
insert into evening values
  ('0000000000000000000000000000000000000000042', 20710, '{"entries": [], "mean": "", "cov": "", "day": 20710, "lampHours": []}',
    '2026-09-14 20:00:00+00');
