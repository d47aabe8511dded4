-- What a hand light meter shows under a unit where one second gives one count; null: nobody said.
alter table unit
  add column meter_reading double precision check (meter_reading between 0.000001 and 1000000000);
