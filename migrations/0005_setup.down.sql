ALTER TABLE programme DROP CONSTRAINT programme_code_key,
    ADD CONSTRAINT programme_contest_id_category_id_code_key UNIQUE (contest_id, category_id, code);
ALTER TABLE category DROP CONSTRAINT category_code_key,
    ADD CONSTRAINT category_contest_id_code_key UNIQUE (contest_id, code);
ALTER TABLE pilot DROP CONSTRAINT pilot_code_key,
    ADD CONSTRAINT pilot_contest_id_code_key UNIQUE (contest_id, code);
ALTER TABLE official DROP CONSTRAINT official_code_key,
    ADD CONSTRAINT official_contest_id_code_key UNIQUE (contest_id, code);
ALTER TABLE penalty_kind DROP COLUMN penalty_kind_id, DROP COLUMN revision;
ALTER TABLE entry DROP COLUMN entry_id, DROP COLUMN revision;
ALTER TABLE programme DROP COLUMN revision;
ALTER TABLE category DROP COLUMN revision;
ALTER TABLE pilot DROP COLUMN revision;
ALTER TABLE official DROP COLUMN revision;
ALTER TABLE contest DROP COLUMN revision;
