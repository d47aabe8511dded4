-- Files, the tickets and layers that films belong to, the films, and what was forecast of them.

-- A file in the shop's folder, named after its content.
create table blob (
  sha256 text collate "C" primary key check (sha256 ~ '^[0-9a-f]{64}$'),
  size_bytes bigint not null check (size_bytes >= 0),
  media_type short_text not null,
  -- again at every time that the same content came: what is new is not cleared away
  stored_at timestamptz not null
);

-- One print job.
create table ticket (
  id sortable_id primary key,
  -- letter and number, as on its papers: H7
  code text not null unique check (code ~ '^[A-Z][0-9]{1,4}$'),
  name short_text not null,
  owner_id sortable_id references person,
  paper short_text,
  edition_count integer check (edition_count between 1 and 1000000),
  closed_at timestamptz,
  created_at timestamptz not null
);

create index ticket_owner on ticket (owner_id);

-- One ink of a ticket.
create table layer (
  id sortable_id primary key,
  ticket_id sortable_id not null references ticket,
  -- in the order of printing, from 1
  place integer not null check (place between 1 and 100),
  ink_id sortable_id references ink,
  -- the ticket's code and the ink's initial: H7-K
  short_name short_text not null unique,
  created_at timestamptz not null,
  unique (ticket_id, place) deferrable initially immediate
);

create index layer_ink on layer (ink_id);

create table film (
  id sortable_id primary key,
  -- null: a loose film
  layer_id sortable_id references layer,
  kind text not null check (kind in ('read', 'made')),
  name short_text not null,
  owner_id sortable_id references person,
  base_id sortable_id references base,
  medium_id sortable_id references medium,
  status text not null check (status in ('waiting', 'ready', 'refused')),
  -- why it cannot be read, as said to people
  refusal text,
  original_blob text not null references blob,
  file_name short_text,
  -- how the original is to be read, where it does not say so itself
  resolution_dpi double precision check (resolution_dpi between 50 and 6000),
  solid_density double precision check (solid_density between 0.3 and 6),
  read_as text check (read_as in ('transmission', 'coverage')),
  -- what came of it
  width_mm double precision check (width_mm between 0.01 and 100000),
  height_mm double precision check (height_mm between 0.01 and 100000),
  pixel_um double precision check (pixel_um between 1 and 2000),
  map_blob text references blob,
  tiles_blob text references blob,
  marks jsonb,
  -- whether faint underdrawing prints; null: not asked yet
  faint_prints boolean,
  read_at timestamptz,
  created_at timestamptz not null,
  constraint film_ready_is_measured check (
    status <> 'ready' or num_nonnulls(width_mm, height_mm, pixel_um, read_at) = 4
  ),
  constraint film_refused_says_why check ((status = 'refused') = (refusal is not null))
);

create index film_layer on film (layer_id);
create index film_owner on film (owner_id);
create index film_base on film (base_id);
create index film_medium on film (medium_id);
create index film_original_blob on film (original_blob);
create index film_map_blob on film (map_blob);
create index film_tiles_blob on film (tiles_blob);

-- A cache: each row can be computed again from its film and set-up.
create table forecast (
  film_id sortable_id not null references film on delete cascade,
  setup_hash text collate "C" not null check (setup_hash ~ '^[0-9a-f]{64}$'),
  -- of the way of computing
  version integer not null check (version >= 1),
  setup jsonb not null,
  answer jsonb not null,
  leak_blob text references blob,
  used_at timestamptz not null,
  created_at timestamptz not null,
  primary key (film_id, setup_hash, version)
);

create index forecast_leak_blob on forecast (leak_blob);
create index forecast_used_at on forecast (used_at);
