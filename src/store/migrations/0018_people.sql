-- Who may come in and what each may use: secrets by which one signs in, who is signed in where, and
-- inductions with their giver.

alter table person drop constraint person_role_check;
alter table person add constraint person_role_check
  check (role in ('lead', 'technician', 'printer', 'guest'));
-- after this day what is known of somebody who left is taken out
alter table person add column delete_after timestamptz;

-- Never the word or the code itself: what scrypt makes of it.
create table credential (
  person_id sortable_id primary key references person,
  password_hash short_text,
  code_hash text collate "C" unique check (code_hash ~ '^[0-9a-f]{64}$'),
  changed_at timestamptz not null
);

-- Somebody signed in on a device; the cookie's token is kept as its SHA-256.
create table session (
  id sortable_id primary key,
  person_id sortable_id not null references person,
  token_hash text collate "C" not null unique check (token_hash ~ '^[0-9a-f]{64}$'),
  began_at timestamptz not null,
  ends_at timestamptz not null check (ends_at > began_at)
);

create index session_person on session (person_id);

-- Somebody was shown a machine and may use it, or may work alone.
create table sign_off (
  id sortable_id primary key,
  person_id sortable_id not null references person,
  machine text not null check (machine in ('light', 'water', 'chemicals', 'printing', 'alone')),
  -- of that unit alone; null: of all there are
  unit_id sortable_id references unit,
  given_by_id sortable_id references person,
  given_at timestamptz not null,
  -- null: for good
  expires_at timestamptz check (expires_at > given_at),
  withdrawn_at timestamptz check (withdrawn_at >= given_at),
  created_at timestamptz not null
);

create index sign_off_person on sign_off (person_id, id);
create index sign_off_unit on sign_off (unit_id);
create index sign_off_given_by on sign_off (given_by_id);
