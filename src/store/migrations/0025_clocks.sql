-- Sign-offs for coating and the drying cabinet too, which of them a shop asks for, and clocks that
-- follow whoever started them.

alter table sign_off drop constraint sign_off_machine_check;
alter table sign_off add constraint sign_off_machine_check
  check (machine in ('coating', 'drying', 'light', 'water', 'chemicals', 'printing', 'alone'));

-- what somebody has to be shown before they use it; null: what is usual
alter table shop add column shown_first jsonb;
-- until now the lamp alone was asked for: a shop that is there goes on as it was
update shop set shown_first = '["light"]';

-- Something that must not be left longer than this: remover on a screen.
create table clock (
  id sortable_id primary key,
  -- made on the device: told twice, it is one
  sent_key text collate "C" not null unique check (sent_key ~ '^[0-9A-Za-z-]{8,64}$'),
  kind text not null check (kind in ('remover')),
  screen_id sortable_id not null references screen,
  -- whom it follows; null: the device alone that started it
  person_id sortable_id references person,
  -- by our clock, reckoned back from the device's
  started_at timestamptz not null,
  sec double precision not null check (sec between 5 and 86400),
  ended_at timestamptz check (ended_at >= started_at),
  created_at timestamptz not null
);

create index clock_screen on clock (screen_id, id);
create index clock_person on clock (person_id);
create index clock_running on clock (started_at) where ended_at is null;
