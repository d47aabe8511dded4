-- A cause that the shop added, with how often a veil goes with it, after migration 0026. Invented.
insert into diagnosis_row values
  ('01k5a1b2c30000000000000041', 'cause', 'own demo cause', null,
    '{"says": "Demo: the tap ran dry", "share": 0.02, "now": "Wait.", "next": "Ask.", "isUsed": true}',
    false, '2026-09-18 17:00:00+00', '2026-09-18 17:00:00+00'),
  ('01k5a1b2c30000000000000042', 'link', 'own demo cause', 'veil', '{"chance": 0.5}', true,
    '2026-09-18 17:01:00+00', '2026-09-18 17:01:00+00');
