-- A press of two that somebody was shown, and somebody whose name was taken out, after migration 0028.
-- Invented.
insert into thing values
  ('01k5a1b2c3000000000000005a', 'machine', 'demo press by the door', '{"of": "printing"}',
    '2026-09-20 09:00:00+00', null, '2026-09-20 09:00:00+00');
insert into sign_off
  (id, person_id, machine, thing_id, given_at, created_at)
values
  ('01k5a1b2c3000000000000005b', '01k5a1b2c3000000000000000d', 'printing',
    '01k5a1b2c3000000000000005a', '2026-09-20 09:01:00+00', '2026-09-20 09:01:00+00');
insert into person (id, name, role, left_at, forgotten_at, created_at) values
  ('01k5a1b2c3000000000000005c', 'somebody who left', 'guest', '2026-09-20 09:02:00+00',
    '2026-09-20 09:03:00+00', '2026-09-20 09:00:00+00');
