ALTER TABLE contest ADD COLUMN revision bigint NOT NULL DEFAULT 1 CHECK (revision >= 1);
ALTER TABLE official ADD COLUMN revision bigint NOT NULL DEFAULT 1 CHECK (revision >= 1);
ALTER TABLE pilot ADD COLUMN revision bigint NOT NULL DEFAULT 1 CHECK (revision >= 1);
ALTER TABLE category ADD COLUMN revision bigint NOT NULL DEFAULT 1 CHECK (revision >= 1);
ALTER TABLE programme ADD COLUMN revision bigint NOT NULL DEFAULT 1 CHECK (revision >= 1);
ALTER TABLE entry
    ADD COLUMN revision bigint NOT NULL DEFAULT 1 CHECK (revision >= 1),
    ADD COLUMN entry_id uuid NOT NULL DEFAULT gen_random_uuid(),
    ADD UNIQUE (contest_id, entry_id);
ALTER TABLE penalty_kind
    ADD COLUMN revision bigint NOT NULL DEFAULT 1 CHECK (revision >= 1),
    ADD COLUMN penalty_kind_id uuid NOT NULL DEFAULT gen_random_uuid(),
    ADD UNIQUE (contest_id, penalty_kind_id);

-- A code may move from one row to another within one change of the set-up.
ALTER TABLE official DROP CONSTRAINT official_contest_id_code_key,
    ADD CONSTRAINT official_code_key UNIQUE (contest_id, code) DEFERRABLE INITIALLY DEFERRED;
ALTER TABLE pilot DROP CONSTRAINT pilot_contest_id_code_key,
    ADD CONSTRAINT pilot_code_key UNIQUE (contest_id, code) DEFERRABLE INITIALLY DEFERRED;
ALTER TABLE category DROP CONSTRAINT category_contest_id_code_key,
    ADD CONSTRAINT category_code_key UNIQUE (contest_id, code) DEFERRABLE INITIALLY DEFERRED;
ALTER TABLE programme DROP CONSTRAINT programme_contest_id_category_id_code_key,
    ADD CONSTRAINT programme_code_key UNIQUE (contest_id, category_id, code) DEFERRABLE INITIALLY DEFERRED;

COMMENT ON COLUMN contest.revision IS 'Counts the changes of the set-up, so that nobody overwrites what they have not seen.';
COMMENT ON COLUMN official.revision IS 'Counts the changes of the row.';
COMMENT ON COLUMN pilot.revision IS 'Counts the changes of the row.';
COMMENT ON COLUMN category.revision IS 'Counts the changes of the row.';
COMMENT ON COLUMN programme.revision IS 'Counts the changes of the row and of its panel.';
COMMENT ON COLUMN entry.revision IS 'Counts the changes of the row.';
COMMENT ON COLUMN entry.entry_id IS 'Names the row while it is edited.';
COMMENT ON COLUMN penalty_kind.revision IS 'Counts the changes of the row.';
COMMENT ON COLUMN penalty_kind.penalty_kind_id IS 'Names the row while it is edited.';
