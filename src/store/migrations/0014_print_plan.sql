-- What printing an edition takes: ink and paper on the shelf, a ticket's plan, films' cover, colours checked.

-- What is left of an ink, and what it costs.
create table ink_stock (
  ink_id sortable_id primary key references ink on delete cascade,
  grams double precision not null check (grams between 0 and 1000000),
  -- in the shop's money
  price_per_kg double precision check (price_per_kg between 0 and 1000000),
  counted_at timestamptz not null
);

-- Paper as it is bought.
create table paper_stock (
  id sortable_id primary key,
  name short_text not null unique,
  width_mm double precision not null check (width_mm between 20 and 10000),
  height_mm double precision not null check (height_mm between 20 and 10000),
  sheets integer not null check (sheets between 0 and 1000000),
  -- in the shop's money
  price_per_sheet double precision check (price_per_sheet between 0 and 1000000),
  counted_at timestamptz not null,
  created_at timestamptz not null
);

-- What somebody settled about printing a ticket; the rest is as usual.
create table print_plan (
  ticket_id sortable_id primary key references ticket on delete cascade,
  asked jsonb not null,
  changed_at timestamptz not null
);

-- How much of a film is marks, counted in its picture; counted again when that is another.
create table film_cover (
  film_id sortable_id primary key references film on delete cascade,
  tiles_sha256 text collate "C" not null check (tiles_sha256 ~ '^[0-9a-f]{64}$'),
  cover_share double precision not null check (cover_share between 0 and 1),
  -- of the marks: close to an edge
  edge_share double precision not null check (edge_share between 0 and 1),
  counted_at timestamptz not null
);

-- A layer's colour on the print against the colour wanted (CIELAB, D50).
create table colour_check (
  id sortable_id primary key,
  layer_id sortable_id not null references layer on delete cascade,
  how text not null check (how in ('measured', 'photo')),
  -- what was read, as it was sent
  readings jsonb not null,
  wanted_l double precision not null check (wanted_l between 0 and 100),
  wanted_a double precision not null check (wanted_a between -160 and 160),
  wanted_b double precision not null check (wanted_b between -160 and 160),
  seen_l double precision not null check (seen_l between -20 and 150),
  seen_a double precision not null check (seen_a between -200 and 200),
  seen_b double precision not null check (seen_b between -200 and 200),
  -- nine in ten such readings are right within so much
  doubt_delta_e double precision not null check (doubt_delta_e between 0 and 100),
  checked_at timestamptz not null,
  -- taken back: kept, and not counted
  taken_back_at timestamptz,
  created_at timestamptz not null
);

create index colour_check_layer on colour_check (layer_id, id);
