-- Whose shop it is, who works there, and its screens with what is coated on them.

create table shop (
  id sortable_id primary key,
  -- one shop in a database
  only_one boolean not null default true unique check (only_one),
  name short_text not null,
  kind text not null check (kind in ('demo', 'own')),
  units text not null check (units in ('mm', 'inch')),
  usual_unit_id sortable_id references unit,
  usual_fabric_id sortable_id references fabric,
  usual_emulsion_id sortable_id references emulsion,
  usual_recipe short_text,
  usual_base_id sortable_id references base,
  usual_medium_id sortable_id references medium,
  created_at timestamptz not null
);

create table person (
  id sortable_id primary key,
  name short_text not null,
  role text not null check (role in ('lead', 'technician', 'printer')),
  class_name short_text,
  -- null: as the shop's
  units text check (units in ('mm', 'inch')),
  left_at timestamptz,
  created_at timestamptz not null
);

create table screen (
  id sortable_id primary key,
  -- of one screen in use; a frame with new fabric is a new screen under its old tag
  tag short_text not null,
  frame_id sortable_id not null references frame,
  fabric_id sortable_id not null references fabric,
  state text not null
    check (state in ('clean', 'coated', 'exposed', 'in print', 'to reclaim', 'torn')),
  rack_slot short_text,
  owner_id sortable_id references person,
  kept_until timestamptz,
  tension_newton_per_cm double precision check (tension_newton_per_cm between 0 and 100),
  retired_at timestamptz,
  created_at timestamptz not null
);

create unique index screen_tag_in_use on screen (tag) where retired_at is null;
create index screen_frame on screen (frame_id);
create index screen_fabric on screen (fabric_id);
create index screen_owner on screen (owner_id);

-- The emulsion on a screen, from coating to reclaim.
create table coating (
  id sortable_id primary key,
  screen_id sortable_id not null references screen,
  batch_id sortable_id references batch,
  recipe short_text not null,
  -- emulsion over mesh on the print side, measured
  eom_um double precision check (eom_um between 0 and 500),
  coated_at timestamptz not null,
  dry_at timestamptz check (dry_at >= coated_at),
  good_until timestamptz check (good_until >= coated_at),
  removed_at timestamptz check (removed_at >= coated_at),
  created_at timestamptz not null
);

create unique index coating_on_screen on coating (screen_id) where removed_at is null;
create index coating_screen on coating (screen_id);
create index coating_batch on coating (batch_id);
