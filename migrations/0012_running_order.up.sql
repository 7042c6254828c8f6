CREATE TABLE running_order (
    contest_id   uuid    NOT NULL,
    programme_id uuid    NOT NULL,
    revision     bigint  NOT NULL CHECK (revision >= 1),
    draws        integer NOT NULL DEFAULT 0 CHECK (draws >= 0),
    plan         jsonb,
    moves        integer NOT NULL DEFAULT 0 CHECK (moves >= 0),
    changed_at   timestamptz NOT NULL DEFAULT clock_timestamp(),
    changed_by   text    NOT NULL,
    PRIMARY KEY (contest_id, programme_id),
    CHECK (draws > 0 OR plan IS NULL),
    FOREIGN KEY (contest_id, programme_id) REFERENCES programme ON DELETE CASCADE
);
COMMENT ON TABLE running_order IS 'How a programme''s running order came to be; the order itself are the places of its flights. None where it came with a bundle.';
COMMENT ON COLUMN running_order.contest_id IS 'The contest.';
COMMENT ON COLUMN running_order.programme_id IS 'The programme.';
COMMENT ON COLUMN running_order.revision IS 'Counts the changes, so that nobody overwrites what they have not seen.';
COMMENT ON COLUMN running_order.draws IS 'How many times it was drawn: a lot that is drawn until it pleases is none.';
COMMENT ON COLUMN running_order.plan IS 'How it was drawn last, with the seed of the lot; null where it never was.';
COMMENT ON COLUMN running_order.moves IS 'How many times it was changed by hand since it was drawn.';
COMMENT ON COLUMN running_order.changed_at IS 'By the database''s clock.';
COMMENT ON COLUMN running_order.changed_by IS 'The account.';
