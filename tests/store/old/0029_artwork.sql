-- Tints of a demo ink as measured, some struck out, and the shop's ink limit, after migration 0029. Invented.
insert into tone_curve values
  ('01k5a1b2c30000000000000051', 'demo blue', (select min(id) from fabric), 'ruled', 18,
    '[[0.25, 0.31], [0.5, 0.61], [0.75, 0.83]]',
    '2026-09-19 12:00:00+00', '2026-09-19 11:00:00+00'),
  ('01k5a1b2c30000000000000052', 'demo blue', (select min(id) from fabric), 'ruled', 18,
    '[[0.25, 0.33], [0.5, 0.62], [0.75, 0.84]]', null, '2026-09-20 11:00:00+00');
insert into ink_limit values (true, 2.6, '2026-09-20 12:00:00+00');
