-- What the register keeps of screens beside where they stand: when the tension was measured, a ghost
-- image that stayed, screens that nobody finds, and all that happened to each.

alter table screen drop constraint screen_state_check;
alter table screen add constraint screen_state_check
  check (state in ('clean', 'coated', 'exposed', 'in print', 'to reclaim', 'torn', 'lost'));
alter table screen add column tension_measured_at timestamptz;
-- a ghost of an old image stayed in the fabric
alter table screen add column haze boolean not null default false;

create table screen_event (
  id sortable_id primary key,
  -- made where it happened: told twice, it is one
  sent_key text collate "C" unique check (sent_key ~ '^[0-9A-Za-z-]{8,64}$'),
  screen_id sortable_id not null references screen,
  kind text not null check (kind in ('came', 'state', 'owner', 'slot', 'tension', 'haze', 'note')),
  -- what it then was, of what the kind names; the others are null
  state text
    check (state in ('clean', 'coated', 'exposed', 'in print', 'to reclaim', 'torn', 'lost')),
  owner_id sortable_id references person,
  kept_until timestamptz,
  rack_slot short_text,
  tension_newton_per_cm double precision check (tension_newton_per_cm between 0 and 100),
  says short_text,
  -- who told; null: nobody said who
  person_id sortable_id references person,
  happened_at timestamptz not null,
  created_at timestamptz not null
);

create index screen_event_screen on screen_event (screen_id, id);
create index screen_event_owner on screen_event (owner_id);
create index screen_event_person on screen_event (person_id);
