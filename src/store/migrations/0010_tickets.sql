-- What happens to a layer on its road, and the edition that came of a ticket.

create table layer_event (
  id sortable_id primary key,
  -- made where it happened: told twice, it is one
  sent_key text collate "C" not null unique check (sent_key ~ '^[0-9A-Za-z-]{8,64}$'),
  layer_id sortable_id not null references layer,
  kind text not null check (kind in ('done', 'back', 'pulled', 'spoiled')),
  station text
    check (station in ('artwork', 'film', 'screen', 'light', 'water', 'print', 'reclaim')),
  sheets integer check (sheets between 1 and 10000),
  why short_text,
  person_id sortable_id references person,
  happened_at timestamptz not null,
  -- taken back: kept, and not counted
  taken_back_at timestamptz,
  created_at timestamptz not null,
  constraint layer_event_of_its_kind check (
    case when kind in ('done', 'back')
      then station is not null and sheets is null
      else station is null and sheets is not null
    end
  ),
  constraint layer_event_back_says_why check (kind not in ('back', 'spoiled') or why is not null)
);

create index layer_event_layer on layer_event (layer_id, id);
create index layer_event_person on layer_event (person_id);

-- The edition card: what was signed, and where one of it stays.
create table edition (
  ticket_id sortable_id primary key references ticket,
  numbered integer not null check (numbered between 0 and 1000000),
  artist_proofs integer not null check (artist_proofs between 0 and 10000),
  proofs integer not null check (proofs between 0 and 10000),
  archive_place short_text,
  signed_by short_text,
  created_at timestamptz not null
);
