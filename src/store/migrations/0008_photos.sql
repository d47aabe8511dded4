-- Photos: of a film on a light table, to be read, and of a screen against the light, to be checked.
create table photo (
  id sortable_id primary key,
  subject text not null check (subject in ('film', 'screen')),
  name short_text not null,
  original_blob text not null references blob,
  -- of a screen: the film it is checked against
  film_id sortable_id references film on delete set null,
  -- upright, as its camera meant it
  width_px integer check (width_px between 1 and 100000),
  height_px integer check (height_px between 1 and 100000),
  -- small enough to be shown at once
  preview_blob text references blob,
  -- where to look, as somebody asked; null: nobody asked for an answer yet
  asked jsonb,
  answer jsonb,
  -- of a film its density map, of a screen the film beside it; and the straightened picture
  map_blob text references blob,
  picture_blob text references blob,
  -- why there is no answer, as said to people
  refusal text,
  created_at timestamptz not null,
  -- of a screen: what to spot out, to be printed
  list_blob text references blob,
  constraint photo_seen_is_measured check (num_nonnulls(width_px, height_px, preview_blob) in (0, 3))
);

create index photo_original_blob on photo (original_blob);
create index photo_film on photo (film_id);
create index photo_preview_blob on photo (preview_blob);
create index photo_map_blob on photo (map_blob);
create index photo_picture_blob on photo (picture_blob);
create index photo_list_blob on photo (list_blob);
create index photo_created_at on photo (created_at);
