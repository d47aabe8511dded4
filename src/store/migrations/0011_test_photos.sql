-- Photos of washed-out step wedges and test strips beside those of films and of screens.

alter table photo drop constraint photo_subject_check;
alter table photo add constraint photo_subject_check
  check (subject in ('film', 'screen', 'wedge', 'strip'));
