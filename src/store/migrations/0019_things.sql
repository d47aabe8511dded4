-- What stands in the room beside lamps, screens and inks, what went wrong in it, and why screens failed.

-- A thing of the room by its kind: a station and how many screens it takes, something that is used
-- up, a pot of leftover ink, a term, the shop's own hazard text, a handover note.
create table thing (
  id sortable_id primary key,
  kind text not null
    check (kind in ('station', 'supply', 'leftover', 'term', 'hazard text', 'handover')),
  name short_text not null,
  -- as its kind has them; the contract holds them to their limits
  facts jsonb not null,
  changed_at timestamptz not null,
  retired_at timestamptz,
  created_at timestamptz not null
);

create unique index thing_name_in_use on thing (kind, name) where retired_at is null;

-- Somebody or something was hurt, or nearly so.
create table incident (
  id sortable_id primary key,
  happened_at timestamptz not null,
  place short_text not null,
  -- what happened, and what was done
  what text not null check (length(btrim(what)) > 0 and length(what) <= 2000),
  done text check (length(done) <= 2000),
  hurt text not null check (hurt in ('nobody', 'nearly', 'somebody')),
  told_by_id sortable_id references person,
  told_to short_text,
  created_at timestamptz not null
);

create index incident_happened_at on incident (happened_at);
create index incident_told_by on incident (told_by_id);

-- A screen that failed: what was seen and known of it, and what it was once somebody found out.
create table failure (
  id sortable_id primary key,
  happened_at timestamptz not null,
  run_id sortable_id references run,
  -- names of signs that were there, and of those that were not
  yes jsonb not null,
  no jsonb not null,
  -- what was thought the likeliest; what it was
  guessed short_text not null,
  cause short_text,
  confirmed_at timestamptz,
  created_at timestamptz not null,
  constraint failure_confirmed_whole check ((cause is null) = (confirmed_at is null))
);

create index failure_run on failure (run_id);
