-- Somebody with a password, signed in, shown the lamp, after migration 0018. Invented.
update person set role = 'guest', delete_after = '2027-09-01 00:00:00+00'
  where id = '01k5a1b2c3000000000000000d';
insert into credential values
  ('01k5a1b2c3000000000000000d', 'scrypt$1$demo$demo', repeat('ab', 32), '2026-09-15 09:00:00+00');
insert into session values
  ('01k5a1b2c3000000000000001f', '01k5a1b2c3000000000000000d', repeat('cd', 32),
    '2026-09-15 09:00:00+00', '2026-09-15 21:00:00+00');
insert into sign_off values
  ('01k5a1b2c3000000000000001g', '01k5a1b2c3000000000000000d', 'light',
    '01k5a1b2c3000000000000000a', '01k5a1b2c3000000000000000d', '2026-09-15 09:00:00+00',
    '2027-09-15 09:00:00+00', null, '2026-09-15 09:00:00+00');
