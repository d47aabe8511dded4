-- A pressure washer and a cutter are shown by themselves, any machine that a shop has several of is shown
-- singly, and it is marked whose name was taken out.

alter table thing drop constraint thing_kind_check;
alter table thing add constraint thing_kind_check
  check (kind in ('station', 'machine', 'supply', 'leftover', 'term', 'hazard text', 'handover'));

alter table sign_off drop constraint sign_off_machine_check;
alter table sign_off add constraint sign_off_machine_check check (machine in
  ('coating', 'drying', 'light', 'water', 'pressure washing', 'chemicals', 'printing', 'cutting', 'alone'));
-- of that station or machine of the room alone; unit_id is for exposure units
alter table sign_off add column thing_id sortable_id references thing;
alter table sign_off add constraint sign_off_of_one check (num_nonnulls(unit_id, thing_id) <= 1);
create index sign_off_thing on sign_off (thing_id);

-- until now one sign-off stood for booth and pressure washer: who has it keeps both
insert into sign_off
  (id, person_id, machine, unit_id, given_by_id, given_at, expires_at, withdrawn_at, created_at)
select left(id, 10) || left(md5(id || ' pressure'), 16), person_id, 'pressure washing', unit_id, given_by_id,
  given_at, expires_at, withdrawn_at, created_at
from sign_off where machine = 'water';
update shop set shown_first = shown_first || '["pressure washing"]' where shown_first @> '["water"]';

alter table person add column forgotten_at timestamptz;
update person set forgotten_at = left_at
  where name = 'somebody who left' and left_at is not null and delete_after is null;
