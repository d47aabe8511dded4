-- What was exposed, and what was found out by it: readings are the truth everything else follows.

create table exposure (
  id sortable_id primary key,
  screen_id sortable_id not null references screen,
  coating_id sortable_id references coating,
  unit_id sortable_id not null references unit,
  lamp_id sortable_id references lamp,
  person_id sortable_id references person,
  planned_dose_lu double precision not null check (planned_dose_lu between 0.01 and 1000000),
  planned_low_lu double precision check (planned_low_lu between 0.01 and 1000000),
  planned_high_lu double precision check (planned_high_lu between planned_low_lu and 1000000),
  chance_good double precision check (chance_good between 0 and 1),
  -- the reasons, as they were said
  why jsonb not null,
  -- what the counter was set to, and what it showed at the end
  set_count double precision check (set_count between 0 and 10000000),
  read_count double precision check (read_count between 0 and 10000000),
  lit_sec double precision check (lit_sec between 0 and 86400),
  -- null: planned and not yet done
  lit_at timestamptz,
  created_at timestamptz not null
);

create index exposure_screen on exposure (screen_id);
create index exposure_coating on exposure (coating_id);
create index exposure_unit on exposure (unit_id);
create index exposure_lamp on exposure (lamp_id);
create index exposure_person on exposure (person_id);

create table exposure_film (
  exposure_id sortable_id not null references exposure on delete cascade,
  film_id sortable_id not null references film,
  primary key (exposure_id, film_id)
);

create index exposure_film_film on exposure_film (film_id);

create table reading (
  id sortable_id primary key,
  kind text not null check (kind in ('wedge', 'strip', 'outcome')),
  taken_at timestamptz not null,
  person_id sortable_id references person,
  exposure_id sortable_id references exposure,
  -- under what it was taken, as far as known
  unit_id sortable_id not null references unit,
  lamp_hours double precision check (lamp_hours between 0 and 1000000),
  emulsion_id sortable_id references emulsion,
  batch_id sortable_id references batch,
  recipe short_text,
  fabric_id sortable_id references fabric,
  screen_id sortable_id references screen,
  film_id sortable_id references film,
  medium_id sortable_id references medium,
  base_id sortable_id references base,
  -- a wedge and what it showed
  dose_lu double precision check (dose_lu between 0.01 and 1000000),
  first_density double precision check (first_density between 0 and 1),
  increment double precision check (increment between 0.01 and 0.6),
  steps integer check (steps between 2 and 61),
  last_solid_step integer check (last_solid_step between 0 and steps),
  first_clear_step integer check (first_clear_step between 1 and steps + 1),
  note text check (length(note) <= 2000),
  -- a reading that was struck out is kept, and not believed
  struck_at timestamptz,
  struck_reason short_text,
  struck_by_id sortable_id references person,
  created_at timestamptz not null,
  constraint reading_wedge_is_whole check (
    case when kind = 'wedge'
      then num_nonnulls(dose_lu, first_density, increment, steps, last_solid_step) = 5
        and (first_clear_step is null or first_clear_step > last_solid_step)
      else num_nonnulls(dose_lu, first_density, increment, steps, last_solid_step, first_clear_step) = 0
    end
  ),
  constraint reading_struck_with_reason check ((struck_at is null) = (struck_reason is null)),
  constraint reading_names_medium_or_film
    check (kind = 'wedge' or num_nonnulls(medium_id, film_id) >= 1)
);

create index reading_taken_at on reading (taken_at);
create index reading_person on reading (person_id);
create index reading_exposure on reading (exposure_id);
create index reading_unit on reading (unit_id);
create index reading_emulsion on reading (emulsion_id);
create index reading_batch on reading (batch_id);
create index reading_fabric on reading (fabric_id);
create index reading_screen on reading (screen_id);
create index reading_film on reading (film_id);
create index reading_medium on reading (medium_id);
create index reading_base on reading (base_id);
create index reading_struck_by on reading (struck_by_id);

-- A dose and how it came out: several of a strip, one of an outcome.
create table band (
  reading_id sortable_id not null references reading on delete cascade,
  number integer not null check (number between 1 and 60),
  dose_lu double precision not null check (dose_lu between 0.01 and 1000000),
  grade text check (grade in ('washed off', 'soft', 'good', 'filling', 'filled')),
  -- the two ticks that may stand in place of the grade
  ground text check (ground in ('washed off', 'soft', 'sound')),
  marks text check (marks in ('open', 'filling', 'filled')),
  primary key (reading_id, number),
  constraint band_is_graded check (
    (grade is not null and num_nonnulls(ground, marks) = 0)
    or (grade is null and num_nonnulls(ground, marks) = 2)
  )
);
