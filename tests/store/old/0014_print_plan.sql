-- Ink and paper on the shelf, a plan, a film's cover and a colour check, after migration 0014. Invented.
insert into ink_stock (ink_id, grams, price_per_kg, counted_at)
  select id, 640, 28.5, '2026-09-14 18:00:00+00' from ink limit 1;
insert into paper_stock values
  ('01k5a1b2c3000000000000002a', 'demo cartridge', 500, 700, 37, 1.25, '2026-09-14 18:00:00+00',
    '2026-09-14 18:00:00+00');
insert into print_plan values
  ('01k5a1b2c3000000000000000g', '{"potCm3": 120}', '2026-09-14 18:01:00+00');
insert into film_cover values
  ('01k5a1b2c3000000000000000j',
    '0123456789abcdef0123456789abcdef0123456789abcdef0123456789abcdef', 0.1875, 0.4,
    '2026-09-14 18:02:00+00');
insert into colour_check values
  ('01k5a1b2c3000000000000002b', '01k5a1b2c3000000000000000h', 'measured', '[[61, 2, 7]]',
    62, 1, 6, 61, 2, 7, 1.8, '2026-09-14 18:03:00+00', null, '2026-09-14 18:03:00+00');
