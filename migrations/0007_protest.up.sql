ALTER TABLE publication
    ADD COLUMN public_key bytea NOT NULL CHECK (length(public_key) = 32);
COMMENT ON COLUMN publication.public_key IS 'The Ed25519 key that signature is checked with; key_id is its fingerprint.';

ALTER TABLE programme
    ADD COLUMN abandoned     boolean NOT NULL DEFAULT false,
    ADD COLUMN counts_reason text    NOT NULL DEFAULT '',
    ADD CHECK (NOT (abandoned AND counts));
COMMENT ON COLUMN programme.abandoned IS 'It was broken off: what is not flown will not be, and it does not count.';
COMMENT ON COLUMN programme.counts_reason IS 'Why the director decided that it does not count, or counts again; empty for as set up.';

CREATE TABLE protest (
    contest_id     uuid NOT NULL,
    protest_id     uuid NOT NULL,
    programme_id   uuid NOT NULL,
    publication_id uuid NOT NULL,
    pilot_id       uuid NOT NULL,
    text           text NOT NULL CHECK (text <> ''),
    filed_by       text NOT NULL,
    filed_at       timestamptz NOT NULL,
    PRIMARY KEY (contest_id, protest_id),
    FOREIGN KEY (contest_id, programme_id) REFERENCES programme,
    FOREIGN KEY (contest_id, publication_id) REFERENCES publication,
    FOREIGN KEY (contest_id, programme_id, pilot_id) REFERENCES flight (contest_id, programme_id, pilot_id)
);
CREATE INDEX protest_by_id ON protest (protest_id);
CREATE INDEX protest_by_programme ON protest (contest_id, programme_id);
CREATE TRIGGER kept BEFORE UPDATE OR DELETE OR TRUNCATE ON protest
    FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
ALTER TABLE protest ENABLE ALWAYS TRIGGER kept;
COMMENT ON TABLE protest IS 'Protests against published results; only ever added to.';
COMMENT ON COLUMN protest.contest_id IS 'The contest.';
COMMENT ON COLUMN protest.protest_id IS 'UUIDv7.';
COMMENT ON COLUMN protest.programme_id IS 'The programme whose results are protested.';
COMMENT ON COLUMN protest.publication_id IS 'The publication that stood when it was filed.';
COMMENT ON COLUMN protest.pilot_id IS 'Whose protest it is: a pilot who flies the programme.';
COMMENT ON COLUMN protest.text IS 'What is protested, in the pilot''s words.';
COMMENT ON COLUMN protest.filed_by IS 'The account that filed it.';
COMMENT ON COLUMN protest.filed_at IS 'By the database''s clock.';

CREATE TABLE protest_decision (
    contest_id uuid    NOT NULL,
    protest_id uuid    NOT NULL,
    upheld     boolean NOT NULL,
    text       text    NOT NULL CHECK (text <> ''),
    flight_id  uuid,
    decided_by text    NOT NULL,
    decided_at timestamptz NOT NULL,
    PRIMARY KEY (contest_id, protest_id),
    FOREIGN KEY (contest_id, protest_id) REFERENCES protest,
    FOREIGN KEY (contest_id, flight_id) REFERENCES flight,
    CHECK (upheld OR flight_id IS NULL)
);
CREATE TRIGGER kept BEFORE UPDATE OR DELETE OR TRUNCATE ON protest_decision
    FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
ALTER TABLE protest_decision ENABLE ALWAYS TRIGGER kept;
COMMENT ON TABLE protest_decision IS 'What the director decided about a protest; a protest without one is open. Only ever added to.';
COMMENT ON COLUMN protest_decision.contest_id IS 'The contest.';
COMMENT ON COLUMN protest_decision.protest_id IS 'The protest.';
COMMENT ON COLUMN protest_decision.upheld IS 'Whether the pilot was right.';
COMMENT ON COLUMN protest_decision.text IS 'Why, in the director''s words.';
COMMENT ON COLUMN protest_decision.flight_id IS 'The closed flight that it opened again, where it did.';
COMMENT ON COLUMN protest_decision.decided_by IS 'The account that decided.';
COMMENT ON COLUMN protest_decision.decided_at IS 'By the database''s clock.';
