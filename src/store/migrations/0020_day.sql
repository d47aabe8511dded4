-- A class on the room's machines: what was planned, and what happened meanwhile.

create table day_plan (
  id sortable_id primary key,
  title short_text not null,
  -- minutes of the plan count from here
  begins_at timestamptz not null,
  closes_at timestamptz not null check (closes_at > begins_at),
  -- people with their screens, stations with their minutes
  asked jsonb not null,
  ended_at timestamptz,
  created_at timestamptz not null
);

create index day_plan_begins_at on day_plan (begins_at);

-- A screen failed and is made again, somebody comes late, a station was left earlier or later.
create table day_event (
  id sortable_id primary key,
  -- made on the device: told twice, it is one
  sent_key text collate "C" not null unique check (sent_key ~ '^[0-9A-Za-z-]{8,64}$'),
  plan_id sortable_id not null references day_plan,
  kind text not null check (kind in ('failed', 'late', 'done')),
  person short_text not null,
  screen integer not null check (screen between 1 and 200),
  station short_text,
  -- how late somebody comes
  minutes double precision check (minutes between 0 and 1440),
  happened_at timestamptz not null,
  created_at timestamptz not null
);

create index day_event_plan on day_event (plan_id, id);
