-- What the shop knows of its prints: what tints were measured to come to, and how much ink dries.

-- Tints of an ink as measured on a print: what a share of the film prints as. The newest that was not
-- struck out counts for its ink, fabric and dots.
create table tone_curve (
  id sortable_id primary key,
  -- by its name, as plans of films have it
  ink short_text not null,
  fabric_id sortable_id not null references fabric on delete cascade,
  dots text not null check (dots in ('ruled', 'scattered')),
  -- lines per cm; of scattered dots how many lie side by side on a cm
  ruling_per_cm double precision not null check (ruling_per_cm between 1 and 3000),
  -- pairs of shares that rise, film and print; the contract holds them to it
  tints jsonb not null,
  -- kept, and not used
  struck_at timestamptz,
  created_at timestamptz not null
);

create index tone_curve_fabric on tone_curve (fabric_id);

create table ink_limit (
  -- one shop in a database
  only_one boolean primary key default true check (only_one),
  -- the most ink at one place that dries before the next screen, in solids
  coverage double precision not null check (coverage between 1 and 4),
  changed_at timestamptz not null
);
