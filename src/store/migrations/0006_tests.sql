-- What lamps and glass do, where a reading lay, what drift is charted against, whence notes came.

alter table reading
  -- where it lay on the glass, from the front left corner; null: nobody said
  add column x_mm double precision check (x_mm between 0 and 10000),
  add column y_mm double precision check (y_mm between 0 and 10000),
  -- what the marks of a film that was read counted as, above its base
  add column marks_density double precision check (marks_density between 0 and 10),
  -- the line of the shop's old notes that it was taken from
  add column note_line text check (length(note_line) between 1 and 500),
  add constraint reading_place_is_whole check (num_nonnulls(x_mm, y_mm) <> 1),
  add constraint reading_density_of_a_film check (marks_density is null or film_id is not null);

create index reading_note_line on reading (note_line) where note_line is not null;

-- One run of a lamp: what its counter showed at which second.
create table lamp_timing (
  id sortable_id primary key,
  unit_id sortable_id not null references unit,
  lamp_id sortable_id references lamp,
  taken_at timestamptz not null,
  started text not null check (started in ('cold', 'hot')),
  lamp_hours double precision check (lamp_hours between 0 and 1000000),
  pairs jsonb not null check (jsonb_typeof(pairs) = 'array' and jsonb_array_length(pairs) >= 2),
  created_at timestamptz not null
);

create index lamp_timing_unit on lamp_timing (unit_id, taken_at);
create index lamp_timing_lamp on lamp_timing (lamp_id);

-- Wedges that lay at several places of one glass under one dose.
create table evenness_survey (
  id sortable_id primary key,
  unit_id sortable_id not null references unit,
  lamp_id sortable_id references lamp,
  taken_at timestamptz not null,
  glass_width_mm double precision not null check (glass_width_mm between 50 and 10000),
  glass_height_mm double precision not null check (glass_height_mm between 50 and 10000),
  dose_lu double precision not null check (dose_lu between 0.01 and 1000000),
  first_density double precision not null check (first_density between 0 and 1),
  increment double precision not null check (increment between 0.01 and 0.6),
  steps integer not null check (steps between 2 and 61),
  created_at timestamptz not null
);

create index evenness_survey_unit on evenness_survey (unit_id, taken_at);
create index evenness_survey_lamp on evenness_survey (lamp_id);

create table evenness_wedge (
  survey_id sortable_id not null references evenness_survey on delete cascade,
  number integer not null check (number between 1 and 60),
  -- from the front left corner of the glass
  x_mm double precision not null check (x_mm between 0 and 10000),
  y_mm double precision not null check (y_mm between 0 and 10000),
  last_solid_step integer not null check (last_solid_step between 0 and 61),
  first_clear_step integer check (first_clear_step between last_solid_step + 1 and 62),
  primary key (survey_id, number)
);

-- What was believed on that day is what drift is charted against.
create table calibration_reference (
  id sortable_id primary key,
  accepted_at timestamptz not null,
  accepted_by_id sortable_id references person,
  created_at timestamptz not null
);

create index calibration_reference_accepted_at on calibration_reference (accepted_at);
create index calibration_reference_accepted_by on calibration_reference (accepted_by_id);
