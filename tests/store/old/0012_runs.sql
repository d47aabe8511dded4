-- An exposure of a screen without a tag, walked to its lamp, after migration 0012. Invented.
insert into exposure values
  ('01k5a1b2c3000000000000001b', null, null, '01k5a1b2c3000000000000000a',
    '01k5a1b2c3000000000000000b', null, 42.5, 36, 47, 0.8125, '[]', null, null, null, null,
    '2026-09-14 16:00:00+00');
insert into run values
  ('01k5a1b2c3000000000000001c', 'demo-run-1', '01k5a1b2c3000000000000001b',
    '01k5a1b2c30000000000000008', '01k5a1b2c30000000000000007', '{"subject": "soft pencil"}',
    '[{"name": "lamp"}]', '2026-09-14 16:00:00+00', null, null, null, '2026-09-14 16:00:00+00');
insert into run_event values
  ('01k5a1b2c3000000000000001d', 'demo-step-1', '01k5a1b2c3000000000000001c', 'clock', 'lamp', null,
    null, null, '2026-09-14 16:01:00+00', '2026-09-14 16:01:02+00');
insert into step_list values
  ('01k5a1b2c3000000000000000a', '[{"name": "lid"}]', '2026-09-14 16:00:00+00');
