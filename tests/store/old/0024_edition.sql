-- Prices in euro, a film measured both ways, and two prints given out, after migration 0024. Invented.
insert into money values (true, 'EUR', '2026-09-14 18:00:00+00');
update film_queue set across_bar_mm = 100, across_measured_mm = 99.5 where measured_mm is not null;
insert into edition_tally values
  ('01k5a1b2c3000000000000004a', 'demo-tally-1', '01k5a1b2c3000000000000000g', 'numbered', 2, null,
    null, '2026-09-17 15:00:00+00', null, '2026-09-17 15:00:00+00'),
  ('01k5a1b2c3000000000000004b', 'demo-tally-2', '01k5a1b2c3000000000000000g', 'signed', 2, 'Demo Tam',
    '01k5a1b2c3000000000000000d', '2026-09-17 16:00:00+00', null, '2026-09-17 16:00:00+00');
