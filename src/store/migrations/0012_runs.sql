-- One exposure step by step: its steps as they stood when it began, and what happened at them.

-- a screen may carry no tag
alter table exposure alter column screen_id drop not null;

create table run (
  id sortable_id primary key,
  -- made on the device: begun twice, it is one
  sent_key text collate "C" not null unique check (sent_key ~ '^[0-9A-Za-z-]{8,64}$'),
  exposure_id sortable_id not null unique references exposure,
  medium_id sortable_id references medium,
  base_id sortable_id references base,
  -- what was asked, by its names
  about jsonb not null,
  steps jsonb not null,
  begun_at timestamptz not null,
  -- through, or stopped at a step
  ended_at timestamptz,
  wedge_reading_id sortable_id references reading,
  outcome_reading_id sortable_id references reading,
  created_at timestamptz not null
);

create index run_medium on run (medium_id);
create index run_base on run (base_id);
create index run_wedge_reading on run (wedge_reading_id);
create index run_outcome_reading on run (outcome_reading_id);

create table run_event (
  id sortable_id primary key,
  -- made on the device: told twice, it is one
  sent_key text collate "C" not null unique check (sent_key ~ '^[0-9A-Za-z-]{8,64}$'),
  run_id sortable_id not null references run,
  kind text not null check (kind in ('done', 'clock', 'not right', 'back')),
  step short_text not null,
  cause short_text,
  -- a count that was read, or a wedge's last solid step, and its first clear one
  value double precision check (value between 0 and 10000000),
  second double precision check (second between 0 and 10000000),
  -- by our clock, reckoned back from the device's
  happened_at timestamptz not null,
  created_at timestamptz not null,
  constraint run_event_not_right_says_why check ((kind = 'not right') = (cause is not null))
);

create index run_event_run on run_event (run_id, id);

-- A shop's own list of steps for a unit; where there is none the usual steps hold.
create table step_list (
  unit_id sortable_id primary key references unit,
  entries jsonb not null,
  changed_at timestamptz not null
);
