-- A cache: what was believed on some evenings, which the readings up to it make again at any time.

create table evening (
  -- of all the readings up to that evening and of the way of reckoning; another of either, another key
  key text collate "C" primary key check (key ~ '^[A-Za-z0-9_-]{43}$'),
  day integer not null,
  belief jsonb not null,
  created_at timestamptz not null
);
