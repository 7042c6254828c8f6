CREATE TABLE server (
    single boolean PRIMARY KEY DEFAULT true CHECK (single),
    epoch  uuid    NOT NULL
);
COMMENT ON TABLE server IS 'What holds for this database as a whole; one row.';
COMMENT ON COLUMN server.single IS 'Always true, so that there is one row.';
COMMENT ON COLUMN server.epoch IS 'New at each restore: devices then send again what is missing, readers read everything again.';

INSERT INTO server (epoch) VALUES (gen_random_uuid());

CREATE TABLE contest (
    contest_id uuid PRIMARY KEY,
    name       text NOT NULL,
    place      text NOT NULL,
    starts     date,
    ends       date CHECK (ends >= starts),
    opened     text NOT NULL CHECK (opened IN ('closed', 'published', 'live')),
    created_at timestamptz NOT NULL DEFAULT now()
);
COMMENT ON TABLE contest IS 'A contest; every other table of a contest has contest_id first in its key.';
COMMENT ON COLUMN contest.contest_id IS 'UUIDv7; in the order in which contests were made.';
COMMENT ON COLUMN contest.name IS 'As on prints; may be empty.';
COMMENT ON COLUMN contest.place IS 'Where it is flown; may be empty.';
COMMENT ON COLUMN contest.starts IS 'First day, where known.';
COMMENT ON COLUMN contest.ends IS 'Last day, where known.';
COMMENT ON COLUMN contest.opened IS 'Who sees it besides its officials: closed nobody, published anyone its publications, live anyone its live results.';
COMMENT ON COLUMN contest.created_at IS 'When it was made here.';

CREATE TABLE contest_head (
    contest_id     uuid   PRIMARY KEY REFERENCES contest,
    version        bigint NOT NULL CHECK (version >= 0),
    journal_number bigint NOT NULL CHECK (journal_number >= 0),
    journal_hash   bytea  NOT NULL CHECK (length(journal_hash) = 32)
);
COMMENT ON TABLE contest_head IS 'Where a contest stands; raised by every change as the last thing before its commit.';
COMMENT ON COLUMN contest_head.contest_id IS 'The contest.';
COMMENT ON COLUMN contest_head.version IS 'Counts the changes from 1; what was read at one version is the same for ever, within an epoch.';
COMMENT ON COLUMN contest_head.journal_number IS 'Number of the last row of the journal, 0 before the first.';
COMMENT ON COLUMN contest_head.journal_hash IS 'Hash of the last row of the journal, 32 zero bytes before the first.';

CREATE TABLE journal (
    contest_id uuid   NOT NULL REFERENCES contest,
    number     bigint NOT NULL CHECK (number >= 1),
    body       bytea  NOT NULL,
    hash       bytea  NOT NULL CHECK (length(hash) = 32),
    PRIMARY KEY (contest_id, number)
);
COMMENT ON TABLE journal IS 'Every change that matters, each bound to all before it; only ever added to.';
COMMENT ON COLUMN journal.contest_id IS 'The contest.';
COMMENT ON COLUMN journal.number IS 'Counts from 1 without a hole.';
COMMENT ON COLUMN journal.body IS 'What was done, when and by whom, as JSON; these very bytes are hashed.';
COMMENT ON COLUMN journal.hash IS 'SHA-256 of the previous hash (32 zero bytes before the first), the number as 8 bytes big-endian, and body.';

CREATE TABLE official (
    contest_id  uuid NOT NULL REFERENCES contest,
    official_id uuid NOT NULL,
    code        text NOT NULL CHECK (code <> ''),
    position    integer NOT NULL,
    duty        text NOT NULL CHECK (duty IN ('judge', 'chief', 'assistant', 'announcer', 'office', 'director', 'jury')),
    name        text NOT NULL,
    affiliation text NOT NULL,
    PRIMARY KEY (contest_id, official_id),
    UNIQUE (contest_id, code),
    UNIQUE (contest_id, official_id, duty)
);
COMMENT ON TABLE official IS 'The judges of a contest and the other people who run it.';
COMMENT ON COLUMN official.contest_id IS 'The contest.';
COMMENT ON COLUMN official.official_id IS 'UUIDv7.';
COMMENT ON COLUMN official.code IS 'The id in bundles.';
COMMENT ON COLUMN official.position IS 'Order in lists and bundles.';
COMMENT ON COLUMN official.duty IS 'What the person does; only a judge can sit on a panel.';
COMMENT ON COLUMN official.name IS 'As on prints; may be empty.';
COMMENT ON COLUMN official.affiliation IS 'Club or country, to point out a judge who grades a pilot of the own; may be empty.';

CREATE TABLE pilot (
    contest_id  uuid NOT NULL REFERENCES contest,
    pilot_id    uuid NOT NULL,
    code        text NOT NULL CHECK (code <> ''),
    position    integer NOT NULL,
    name        text NOT NULL,
    affiliation text NOT NULL,
    aircraft    text NOT NULL,
    PRIMARY KEY (contest_id, pilot_id),
    UNIQUE (contest_id, code)
);
COMMENT ON TABLE pilot IS 'The pilots of a contest.';
COMMENT ON COLUMN pilot.contest_id IS 'The contest.';
COMMENT ON COLUMN pilot.pilot_id IS 'UUIDv7.';
COMMENT ON COLUMN pilot.code IS 'The id in bundles.';
COMMENT ON COLUMN pilot.position IS 'Order in lists and bundles.';
COMMENT ON COLUMN pilot.name IS 'As on prints; may be empty.';
COMMENT ON COLUMN pilot.affiliation IS 'Club or country; may be empty.';
COMMENT ON COLUMN pilot.aircraft IS 'What is flown; may be empty.';

CREATE TABLE penalty_kind (
    contest_id   uuid NOT NULL REFERENCES contest,
    kind         text NOT NULL CHECK (kind <> ''),
    position     integer NOT NULL,
    points       double precision NOT NULL CHECK (points >= 0 AND points < 'Infinity'),
    repeats      boolean NOT NULL DEFAULT true,
    disqualifies boolean NOT NULL DEFAULT false,
    PRIMARY KEY (contest_id, kind)
);
COMMENT ON TABLE penalty_kind IS 'The penalties that the officials of a contest are offered; one given is a record of the line with points of its own.';
COMMENT ON COLUMN penalty_kind.contest_id IS 'The contest.';
COMMENT ON COLUMN penalty_kind.kind IS 'Its name, as on prints.';
COMMENT ON COLUMN penalty_kind.position IS 'Order in lists.';
COMMENT ON COLUMN penalty_kind.points IS 'Points for each occurrence.';
COMMENT ON COLUMN penalty_kind.repeats IS 'It can occur more than once in a flight.';
COMMENT ON COLUMN penalty_kind.disqualifies IS 'It ends the flight without a score.';

-- A trigger, and not a right withheld from a role: it holds in the same way
-- where one role owns and uses the database, which is all that many operators
-- are given, and for the owner and a superuser too.
CREATE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    RAISE EXCEPTION 'rows of % are never changed or deleted', TG_TABLE_NAME
        USING ERRCODE = 'restrict_violation';
END
$$;
COMMENT ON FUNCTION refuse_change() IS 'Makes a table one that is only ever added to.';

CREATE TRIGGER kept BEFORE UPDATE OR DELETE OR TRUNCATE ON journal
    FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
ALTER TABLE journal ENABLE ALWAYS TRIGGER kept;
