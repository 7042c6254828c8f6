ALTER TABLE category
    ADD COLUMN limits      json CHECK (json_typeof(limits) = 'object'),
    ADD COLUMN limits_note text NOT NULL DEFAULT '';
COMMENT ON COLUMN category.limits IS 'What its sequences must keep, as written; none where there are no limits.';
COMMENT ON COLUMN category.limits_note IS 'Where the limits come from; may be empty.';

CREATE TABLE number_table (
    contest_id uuid PRIMARY KEY REFERENCES contest,
    body       bytea NOT NULL,
    digest     text NOT NULL CHECK (digest ~ '^[0-9a-f]{64}$'),
    numbers    integer NOT NULL CHECK (numbers > 0),
    set_at     timestamptz NOT NULL DEFAULT now()
);
COMMENT ON TABLE number_table IS 'The organiser''s own table of catalogue numbers and their K, where there is one.';
COMMENT ON COLUMN number_table.contest_id IS 'The contest.';
COMMENT ON COLUMN number_table.body IS 'CSV of two columns, number and K, as it was sent.';
COMMENT ON COLUMN number_table.digest IS 'SHA-256 of body.';
COMMENT ON COLUMN number_table.numbers IS 'How many numbers it has.';
COMMENT ON COLUMN number_table.set_at IS 'When it was sent.';

ALTER TABLE sequence
    ADD COLUMN revision          integer NOT NULL DEFAULT 1 CHECK (revision >= 1),
    ADD COLUMN registered_at     timestamptz NOT NULL DEFAULT now(),
    ADD COLUMN signed_off_at     timestamptz,
    ADD COLUMN signed_off_by     text,
    ADD COLUMN signed_off_reason text,
    ADD CHECK ((signed_off_at IS NULL) = (signed_off_by IS NULL)),
    ADD CHECK ((signed_off_at IS NULL) = (signed_off_reason IS NULL));
COMMENT ON COLUMN sequence.revision IS 'Counts what was registered in this place; the digest stays where only K, names or words change.';
COMMENT ON COLUMN sequence.registered_at IS 'When this revision was registered.';
COMMENT ON COLUMN sequence.signed_off_at IS 'When the office accepted this revision, where it has.';
COMMENT ON COLUMN sequence.signed_off_by IS 'Who accepted it.';
COMMENT ON COLUMN sequence.signed_off_reason IS 'Why, which must be said where an error stands; else it may be empty.';
