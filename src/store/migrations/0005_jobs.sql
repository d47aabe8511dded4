-- Work that takes longer than an answer may, and what was done to keep the database well.

create table job (
  id sortable_id primary key,
  kind short_text not null,
  -- the same work asked twice is one job while it is not finished
  work_key text check (length(work_key) between 1 and 500),
  payload jsonb not null,
  state text not null check (state in ('queued', 'running', 'done', 'failed', 'cancelled')),
  progress_share double precision not null check (progress_share between 0 and 1),
  progress_words short_text,
  attempts integer not null check (attempts >= 0),
  most_attempts integer not null check (most_attempts between 1 and 100),
  -- where a next attempt may go on
  resume_from jsonb,
  result jsonb,
  -- why it failed, as said to people
  trouble text,
  cancel_asked boolean not null,
  worker text,
  lease_until timestamptz,
  start_after timestamptz not null,
  started_at timestamptz,
  finished_at timestamptz,
  created_at timestamptz not null,
  constraint job_leased_while_running check ((state = 'running') = (lease_until is not null)),
  constraint job_finished_at_its_end
    check ((state in ('done', 'failed', 'cancelled')) = (finished_at is not null)),
  constraint job_failed_says_why check ((state = 'failed') = (trouble is not null))
);

create unique index job_open_work on job (work_key) where state in ('queued', 'running');
create index job_waiting on job (start_after, id) where state in ('queued', 'running');
create index job_finished on job (finished_at) where finished_at is not null;

create table upkeep (
  task text primary key check (task in ('vacuum', 'check', 'backup')),
  done_at timestamptz not null
);
