-- A job and the upkeep as they stood after migration 0005. Invented.
insert into job (id, kind, work_key, payload, state, progress_share, attempts, most_attempts,
  cancel_asked, start_after, created_at)
values ('01k5a1b2c3000000000000000p', 'forecast', 'forecast 1', '{"film": 1}', 'queued', 0, 0, 3,
  false, '2026-09-14 11:10:00+00', '2026-09-14 11:10:00+00');
insert into upkeep values ('vacuum', '2026-09-14 03:00:00+00');
