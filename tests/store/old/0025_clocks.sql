-- Remover on a screen, and what a shop wants shown first, after migration 0025. Invented.
insert into clock values
  ('01k5a1b2c3000000000000004a', 'demo-clock-1', 'remover', '01k5a1b2c3000000000000000e', null,
    '2026-09-17 16:00:00+00', 120, null, '2026-09-17 16:00:00+00');
update shop set shown_first = '["coating", "light"]';
