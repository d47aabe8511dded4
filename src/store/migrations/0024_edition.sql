-- The shop's money, films measured both ways, and what becomes of an edition's sheets.

create table money (
  -- one shop in a database
  only_one boolean primary key default true check (only_one),
  -- ISO 4217
  currency text collate "C" not null check (currency ~ '^[A-Z]{3}$'),
  changed_at timestamptz not null
);

-- the way across the film, measured together with the way along it
alter table film_queue add column across_bar_mm double precision
  check (across_bar_mm between 10 and 2000);
alter table film_queue add column across_measured_mm double precision
  check (across_measured_mm between 1 and 4000);
alter table film_queue add constraint film_queue_across_whole
  check (num_nonnulls(across_bar_mm, across_measured_mm) in (0, 2));
alter table film_queue add constraint film_queue_across_with_along
  check (across_measured_mm is null or measured_mm is not null);

-- Sheets of an edition as they are given out: proofs, artist's proofs, numbered prints; and signed.
create table edition_tally (
  id sortable_id primary key,
  -- made where it happened: told twice, it is one
  sent_key text collate "C" not null unique check (sent_key ~ '^[0-9A-Za-z-]{8,64}$'),
  ticket_id sortable_id not null references ticket,
  kind text not null check (kind in ('proof', 'artist proof', 'numbered', 'signed')),
  sheets integer not null check (sheets between 1 and 10000),
  -- who signed
  by_name short_text,
  -- who told it
  person_id sortable_id references person,
  happened_at timestamptz not null,
  -- taken back: kept, and not counted
  taken_back_at timestamptz,
  created_at timestamptz not null,
  constraint edition_tally_signed_by check ((by_name is null) or kind = 'signed')
);

create index edition_tally_ticket on edition_tally (ticket_id, id);
create index edition_tally_person on edition_tally (person_id);
