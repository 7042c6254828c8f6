DROP TABLE protest_decision, protest;
ALTER TABLE programme DROP COLUMN abandoned, DROP COLUMN counts_reason;
ALTER TABLE publication DROP COLUMN public_key;
