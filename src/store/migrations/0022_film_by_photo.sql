-- What a photo told of a film that was read from it: how far its densities hold, what it looks made with.

alter table film add column by_photo jsonb;

-- How far the marks' density of such a film can be off; null: as films differ.
alter table reading
  add column marks_density_sd double precision check (marks_density_sd between 0 and 10),
  add constraint reading_density_sd_of_a_density
    check (marks_density_sd is null or marks_density is not null);
