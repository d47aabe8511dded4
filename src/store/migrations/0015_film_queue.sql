-- Which screen a layer has, and who waits for which film.

alter table layer add column screen_id sortable_id references screen;

create index layer_screen on layer (screen_id);

-- A film that somebody waits for, from the day it was asked for to the day it was fetched.
create table film_queue (
  id sortable_id primary key,
  -- made where it was asked: asked twice, it is one
  sent_key text collate "C" not null unique check (sent_key ~ '^[0-9A-Za-z-]{8,64}$'),
  -- null: a loose film
  layer_id sortable_id references layer,
  what short_text not null,
  -- who waits for it
  person_id sortable_id references person,
  asked_at timestamptz not null,
  made_at timestamptz,
  -- the scale bar: how long it should be, and as it was measured on the film
  bar_mm double precision check (bar_mm between 10 and 2000),
  measured_mm double precision check (measured_mm between 1 and 4000),
  measured_at timestamptz,
  lies_in short_text,
  left_at timestamptz,
  left_as text check (left_as in ('fetched', 'not wanted')),
  created_at timestamptz not null,
  constraint film_queue_measured_whole
    check (num_nonnulls(bar_mm, measured_mm, measured_at) in (0, 3)),
  constraint film_queue_measured_is_made check (measured_at is null or made_at is not null),
  constraint film_queue_left_says_how check ((left_at is null) = (left_as is null))
);

create index film_queue_layer on film_queue (layer_id);
create index film_queue_person on film_queue (person_id);
