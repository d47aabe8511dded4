-- The shop, its people and its screens as they stood after migration 0002. Invented.
insert into shop (id, name, kind, units, usual_unit_id, usual_fabric_id, usual_recipe, created_at)
values ('01k5a1b2c3000000000000000c', 'Demo room (invented)', 'demo', 'mm',
  '01k5a1b2c3000000000000000a', '01k5a1b2c30000000000000001', 'once on each side',
  '2026-09-14 08:12:00+00');
insert into person values
  ('01k5a1b2c3000000000000000d', 'Demo Ölmez', 'technician', 'Thursday', 'inch', null,
    '2026-09-14 08:13:00+00');
insert into screen values
  ('01k5a1b2c3000000000000000e', '14', '01k5a1b2c30000000000000003', '01k5a1b2c30000000000000001',
    'coated', 'B 3', '01k5a1b2c3000000000000000d', '2026-11-19 00:00:00+00', 22.5, null,
    '2026-09-14 08:14:00+00');
insert into coating values
  ('01k5a1b2c3000000000000000f', '01k5a1b2c3000000000000000e', '01k5a1b2c30000000000000006',
    'once on each side', 8.5, '2026-09-14 08:15:00+00', '2026-09-14 10:15:00+00', null, null,
    '2026-09-14 08:15:00+00');
