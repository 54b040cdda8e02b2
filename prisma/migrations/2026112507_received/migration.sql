-- What is received is stamped when it is written, by the clock that stamps a trial's close: a transaction that began
-- before the close and had to wait for it writes after it.
ALTER TABLE box_event ALTER COLUMN received_at SET DEFAULT clock_timestamp();
ALTER TABLE grade ALTER COLUMN received_at SET DEFAULT clock_timestamp();
