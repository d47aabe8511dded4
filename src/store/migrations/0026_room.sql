-- When somebody found a coat dry, and what a shop changed in the table of why screens fail.

-- dry_at is when it was meant to be dry until somebody felt that it was
alter table coating add column dry_noted_at timestamptz check (dry_noted_at >= coated_at);

-- A row that stands over the program's own, or beside it: a cause, a sign, or how often the two go
-- together. Taken away, the program's own counts again.
create table diagnosis_row (
  id sortable_id primary key,
  kind text not null check (kind in ('cause', 'sign', 'link')),
  cause short_text,
  sign short_text,
  -- as its kind has them; the contract holds them to their limits
  facts jsonb not null,
  -- seen in this shop; else judged
  is_seen boolean not null,
  changed_at timestamptz not null,
  created_at timestamptz not null,
  constraint diagnosis_row_names check ((cause is null) = (kind = 'sign') and (sign is null) = (kind = 'cause'))
);

create unique index diagnosis_row_of
  on diagnosis_row (kind, coalesce(cause, ''), coalesce(sign, ''));
