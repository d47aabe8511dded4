-- Artwork: a picture or drawing that came in, what films are wanted of it, and those that were made.

create table artwork (
  id sortable_id primary key,
  ticket_id sortable_id references ticket on delete set null,
  name short_text not null,
  file_name short_text not null,
  original_blob text not null references blob,
  -- its size and kind, and its samples made small; null until somebody looked at it
  seen jsonb,
  samples_blob text references blob,
  -- why no film can be made of it, as said to people
  refusal text,
  -- what films are wanted, in the words of plan files
  plan jsonb,
  -- what their screens are woven of
  fabric_id sortable_id references fabric on delete set null,
  -- the plan that the newest films were made by, and how large they are
  made jsonb,
  proof_blob text references blob,
  created_at timestamptz not null,
  constraint artwork_seen_has_samples check ((seen is null) = (samples_blob is null)),
  constraint artwork_made_has_proof check ((made is null) = (proof_blob is null))
);

create index artwork_ticket on artwork (ticket_id);
create index artwork_fabric on artwork (fabric_id);
create index artwork_original_blob on artwork (original_blob);
create index artwork_samples_blob on artwork (samples_blob);
create index artwork_proof_blob on artwork (proof_blob);

-- The newest film of each ink.
create table artwork_film (
  id sortable_id primary key,
  artwork_id sortable_id not null references artwork on delete cascade,
  -- in the order of printing, from 1
  place integer not null check (place between 1 and 20),
  ink short_text not null,
  -- how much of the artwork is black
  coverage_share double precision not null check (coverage_share between 0 and 1),
  pdf_blob text not null references blob,
  tiff_blob text not null references blob,
  -- the film of the shop that it became, to be forecast
  film_id sortable_id references film on delete set null,
  created_at timestamptz not null,
  constraint artwork_film_place unique (artwork_id, place)
);

create index artwork_film_pdf_blob on artwork_film (pdf_blob);
create index artwork_film_tiff_blob on artwork_film (tiff_blob);
create index artwork_film_film on artwork_film (film_id);
