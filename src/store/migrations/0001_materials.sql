-- What a shop works with: fabrics, frames, emulsions, film bases, media, inks, lamps.

-- Sortable random text: time, then chance; never reused.
create domain sortable_id as text collate "C"
  check (value ~ '^[0-9abcdefghjkmnpqrstvwxyz]{26}$');

-- A name or a short note: not empty, not a page.
create domain short_text as text
  check (length(btrim(value)) > 0 and length(value) <= 200);

create table fabric (
  id sortable_id primary key,
  name short_text not null,
  threads_per_cm double precision not null check (threads_per_cm between 4 and 250),
  thread_um double precision not null check (thread_um between 10 and 1000),
  -- measured; the tables of the trade stand in where it is null
  thickness_um double precision check (thickness_um between 10 and 2000),
  colour short_text not null,
  -- swallows the light that a white one scatters
  dyed boolean not null,
  created_at timestamptz not null,
  unique (name, colour)
);

-- A size of frame; a screen is one of them with a fabric on it.
create table frame (
  id sortable_id primary key,
  name short_text not null unique,
  inside_width_mm double precision not null check (inside_width_mm between 20 and 10000),
  inside_height_mm double precision not null check (inside_height_mm between 20 and 10000),
  outside_width_mm double precision check (outside_width_mm between inside_width_mm and 11000),
  outside_height_mm double precision check (outside_height_mm between inside_height_mm and 11000),
  created_at timestamptz not null
);

create table emulsion (
  id sortable_id primary key,
  name short_text not null unique,
  kind text not null check (kind in ('ready-mixed', 'diazo', 'dual cure')),
  model text not null check (model in ('absorbing', 'bleaching')),
  gel_dose_lu double precision check (gel_dose_lu between 0.001 and 100000),
  penetration_depth_um double precision check (penetration_depth_um between 2 and 2000),
  a_per_um double precision check (a_per_um between 0.0001 and 1),
  b_per_um double precision check (b_per_um between 0 and 0.3),
  c_per_lu double precision check (c_per_lu between 0.000001 and 100),
  gel_share double precision check (gel_share between 0.001 and 0.999),
  refractive_index double precision not null check (refractive_index between 1 and 3),
  created_at timestamptz not null,
  constraint emulsion_numbers_of_its_model check (
    (model = 'absorbing' and num_nonnulls(gel_dose_lu, penetration_depth_um) = 2
      and num_nonnulls(a_per_um, b_per_um, c_per_lu, gel_share) = 0)
    or (model = 'bleaching' and num_nonnulls(a_per_um, b_per_um, c_per_lu, gel_share) = 4
      and num_nonnulls(gel_dose_lu, penetration_depth_um) = 0)
  )
);

-- A bucket of an emulsion.
create table batch (
  id sortable_id primary key,
  emulsion_id sortable_id not null references emulsion,
  name short_text not null,
  mixed_at timestamptz not null,
  expires_at timestamptz check (expires_at >= mixed_at),
  used_up_at timestamptz,
  created_at timestamptz not null,
  unique (emulsion_id, name)
);

-- What films are drawn or printed on.
create table base (
  id sortable_id primary key,
  name short_text not null unique,
  base_density double precision not null check (base_density between 0 and 3),
  thickness_um double precision not null check (thickness_um between 0 and 1000),
  status text not null check (status in ('measured', 'from memory')),
  created_at timestamptz not null
);

-- What marks are made with; densities above the base.
create table medium (
  id sortable_id primary key,
  name short_text not null unique,
  made_by text not null check (made_by in ('hand', 'printer')),
  weakest_mean_density double precision not null check (weakest_mean_density between 0.01 and 6),
  weakest_sd_density double precision not null check (weakest_sd_density between 0 and 2),
  solid_low_density double precision check (solid_low_density between 0.01 and 10),
  solid_high_density double precision check (solid_high_density between solid_low_density and 10),
  status text not null check (status in ('measured', 'judged')),
  created_at timestamptz not null
);

create table ink (
  id sortable_id primary key,
  name short_text not null unique,
  lab_l double precision not null check (lab_l between 0 and 100),
  lab_a double precision not null check (lab_a between -160 and 160),
  lab_b double precision not null check (lab_b between -160 and 160),
  opacity double precision not null check (opacity between 0 and 1),
  status text not null check (status in ('measured', 'estimated')),
  created_at timestamptz not null
);

-- An exposure unit: lamp, glass, lid and counter.
create table unit (
  id sortable_id primary key,
  name short_text not null unique,
  counts text not null check (counts in ('light units', 'seconds')),
  -- one step of the counter in the light units that emulsions are reckoned in
  lu_per_count double precision not null check (lu_per_count between 0.0001 and 10000),
  glass_width_mm double precision check (glass_width_mm between 50 and 10000),
  glass_height_mm double precision check (glass_height_mm between 50 and 10000),
  retired_at timestamptz,
  created_at timestamptz not null
);

create table lamp (
  id sortable_id primary key,
  unit_id sortable_id not null references unit,
  kind text not null check (kind in ('point', 'bank')),
  distance_mm double precision not null check (distance_mm between 5 and 10000),
  source_radius_mm double precision check (source_radius_mm between 0 and 1000),
  lit_hours double precision not null check (lit_hours between 0 and 1000000),
  fitted_at timestamptz not null,
  removed_at timestamptz check (removed_at >= fitted_at),
  created_at timestamptz not null,
  constraint lamp_radius_of_a_point check ((kind = 'point') = (source_radius_mm is not null))
);

create unique index lamp_in_unit on lamp (unit_id) where removed_at is null;
create index lamp_unit on lamp (unit_id);
