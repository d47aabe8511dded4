-- A shop's materials as they stood after migration 0001. Invented.
insert into fabric values
  ('01k5a1b2c30000000000000001', '90-48', 90, 48, 72.5, 'yellow', true, '2026-09-14 08:01:17.431+00'),
  ('01k5a1b2c30000000000000002', '43-80', 43, 80, null, 'white', false, '2026-09-14 08:02:00+00');
insert into frame values
  ('01k5a1b2c30000000000000003', 'A2', 603, 805, 681, null, '2026-09-14 08:03:00+00');
insert into emulsion values
  ('01k5a1b2c30000000000000004', 'demo ready-mixed', 'ready-mixed', 'absorbing', 6.3, 37.1,
    null, null, null, null, 1.52, '2026-09-14 08:04:00+00'),
  ('01k5a1b2c30000000000000005', 'demo diazo', 'diazo', 'bleaching', null, null,
    0.045, 0.01, 0.1155, 0.5, 1.5, '2026-09-14 08:05:00+00');
insert into batch values
  ('01k5a1b2c30000000000000006', '01k5a1b2c30000000000000004', 'bucket 3',
    '2026-09-07 09:00:00+00', '2027-03-07 09:00:00+00', null, '2026-09-14 08:06:00+00');
insert into base values
  ('01k5a1b2c30000000000000007', 'matt film', 0.16, 102, 'measured', '2026-09-14 08:07:00+00');
insert into medium values
  ('01k5a1b2c30000000000000008', 'soft pencil', 'hand', 0.93, 0.2, null, null, 'judged',
    '2026-09-14 08:08:00+00');
insert into ink values
  ('01k5a1b2c30000000000000009', 'demo black', 12.5, -0.75, 1.25, 0.98, 'estimated',
    '2026-09-14 08:09:00+00');
insert into unit values
  ('01k5a1b2c3000000000000000a', 'the demo lamp', 'light units', 1.7, 1210, null, null,
    '2026-09-14 08:10:00+00');
insert into lamp values
  ('01k5a1b2c3000000000000000b', '01k5a1b2c3000000000000000a', 'point', 815, 21, 143.25,
    '2026-01-05 10:00:00+00', null, '2026-09-14 08:11:00+00');
