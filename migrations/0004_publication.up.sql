CREATE TABLE publication (
    contest_id     uuid NOT NULL REFERENCES contest,
    publication_id uuid NOT NULL,
    number         bigint NOT NULL CHECK (number >= 1),
    category_id    uuid NOT NULL,
    programme_id   uuid,
    state          text NOT NULL CHECK (state IN ('provisional', 'official')),
    published_at   timestamptz NOT NULL,
    protest_until  timestamptz,
    reason         text NOT NULL,
    statement      text NOT NULL,
    signature      bytea NOT NULL CHECK (length(signature) = 64),
    key_id         text NOT NULL,
    bundle         bytea NOT NULL,
    results        bytea NOT NULL,
    PRIMARY KEY (contest_id, publication_id),
    UNIQUE (contest_id, number),
    FOREIGN KEY (contest_id, category_id) REFERENCES category,
    FOREIGN KEY (contest_id, programme_id) REFERENCES programme
);
CREATE INDEX publication_by_id ON publication (publication_id);
CREATE INDEX publication_by_scope ON publication (contest_id, category_id, programme_id, number);
CREATE TRIGGER kept BEFORE UPDATE OR DELETE OR TRUNCATE ON publication
    FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
ALTER TABLE publication ENABLE ALWAYS TRIGGER kept;
COMMENT ON TABLE publication IS 'Published results; numbered, signed, only ever added to.';
COMMENT ON COLUMN publication.contest_id IS 'The contest.';
COMMENT ON COLUMN publication.publication_id IS 'UUIDv7.';
COMMENT ON COLUMN publication.number IS 'Counts the publications of the contest from 1.';
COMMENT ON COLUMN publication.category_id IS 'The category whose results it holds.';
COMMENT ON COLUMN publication.programme_id IS 'The programme whose results it holds; none for the standing over all of the category''s.';
COMMENT ON COLUMN publication.state IS 'Provisional while it can be protested, then official.';
COMMENT ON COLUMN publication.published_at IS 'By the database''s clock.';
COMMENT ON COLUMN publication.protest_until IS 'The end of the time for protests, where there is one.';
COMMENT ON COLUMN publication.reason IS 'The director''s, where one was needed; may be empty.';
COMMENT ON COLUMN publication.statement IS 'The text that is signed.';
COMMENT ON COLUMN publication.signature IS 'Ed25519 over statement.';
COMMENT ON COLUMN publication.key_id IS 'Which key signed.';
COMMENT ON COLUMN publication.bundle IS 'What was scored; served as these bytes.';
COMMENT ON COLUMN publication.results IS 'What came out; served as these bytes.';
