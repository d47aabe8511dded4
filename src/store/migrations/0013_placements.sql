-- Where films lie on a screen and the screen on the glass, and what on a glass light should not cross.

create table placement (
  id sortable_id primary key,
  screen_id sortable_id not null references screen,
  -- null, as the three after it: the screen was laid on no glass
  unit_id sortable_id references unit,
  -- the outside of its frame from the back left corner of the glass, seen from above
  left_mm double precision check (left_mm between -20000 and 20000),
  back_mm double precision check (back_mm between -20000 and 20000),
  -- by a quarter, clockwise
  turned boolean,
  frame_clearance_mm double precision not null check (frame_clearance_mm between 0 and 5000),
  between_clearance_mm double precision not null check (between_clearance_mm between 0 and 5000),
  -- when somebody said that all of it lies so; null: planned
  laid_at timestamptz,
  created_at timestamptz not null,
  constraint placement_on_glass_is_whole check (
    num_nonnulls(unit_id, left_mm, back_mm, turned) in (0, 4)
  )
);

create index placement_screen on placement (screen_id, id);
create index placement_unit on placement (unit_id);

-- One film of a placement: its sheet's top left corner from the inside top left of the frame, as printed.
create table placed_film (
  placement_id sortable_id not null references placement on delete cascade,
  film_id sortable_id not null references film on delete cascade,
  x_mm double precision not null check (x_mm between -20000 and 20000),
  y_mm double precision not null check (y_mm between -20000 and 20000),
  turned boolean not null,
  primary key (placement_id, film_id)
);

create index placed_film_film on placed_film (film_id);

-- A scratch, a chip, a stain: from the back left corner of the glass.
create table glass_mark (
  id sortable_id primary key,
  unit_id sortable_id not null references unit,
  what short_text not null,
  x_mm double precision not null check (x_mm between 0 and 20000),
  y_mm double precision not null check (y_mm between 0 and 20000),
  width_mm double precision not null check (width_mm between 0.1 and 20000),
  height_mm double precision not null check (height_mm between 0.1 and 20000),
  -- the glass is clean there again, or another one
  gone_at timestamptz,
  created_at timestamptz not null
);

create index glass_mark_unit on glass_mark (unit_id);
