CREATE TABLE device (
    contest_id      uuid NOT NULL REFERENCES contest,
    device_id       uuid NOT NULL,
    role            text NOT NULL CHECK (role IN ('judge', 'assistant', 'chief', 'announcer')),
    judge_id        uuid,
    duty            text NOT NULL DEFAULT 'judge' CHECK (duty = 'judge'),
    public_key      bytea NOT NULL,
    store           uuid,
    unsent          integer CHECK (unsent >= 0),
    paired_at       timestamptz NOT NULL DEFAULT now(),
    last_contact_at timestamptz,
    withdrawn_at    timestamptz,
    PRIMARY KEY (contest_id, device_id),
    UNIQUE (contest_id, public_key),
    CHECK (role <> 'judge' OR judge_id IS NOT NULL),
    FOREIGN KEY (contest_id, judge_id, duty) REFERENCES official (contest_id, official_id, duty)
);
COMMENT ON TABLE device IS 'The devices on the line, each paired once.';
COMMENT ON COLUMN device.contest_id IS 'The contest.';
COMMENT ON COLUMN device.device_id IS 'UUIDv7 of the pairing; the author of the device''s records.';
COMMENT ON COLUMN device.role IS 'What it was paired for.';
COMMENT ON COLUMN device.judge_id IS 'The judge whose seat it was paired for; an assistant may have one too.';
COMMENT ON COLUMN device.duty IS 'Always judge: nobody else has a seat.';
COMMENT ON COLUMN device.public_key IS 'P-256, which its records are signed with.';
COMMENT ON COLUMN device.store IS 'The id of its own database, once it has sent something.';
COMMENT ON COLUMN device.unsent IS 'How many records it last said were waiting there.';
COMMENT ON COLUMN device.paired_at IS 'When it was paired.';
COMMENT ON COLUMN device.last_contact_at IS 'When it was last heard of.';
COMMENT ON COLUMN device.withdrawn_at IS 'When it was withdrawn; what it sends later is held.';

CREATE TABLE line_record (
    contest_id       uuid     NOT NULL REFERENCES contest,
    record_id        uuid     NOT NULL,
    kind             text     NOT NULL CHECK (kind IN ('grade', 'sign', 'reopen', 'absent', 'ruling', 'penalty', 'status', 'aside')),
    flight_id        uuid     NOT NULL,
    attempt          smallint NOT NULL CHECK (attempt >= 1),
    judge_id         uuid,
    by_id            uuid,
    item             smallint CHECK (item >= 1),
    grade            text     NOT NULL DEFAULT '',
    remark           text     NOT NULL DEFAULT '',
    sequence         text     NOT NULL DEFAULT '',
    replaces         uuid[]   NOT NULL DEFAULT '{}',
    adopts           uuid[]   NOT NULL DEFAULT '{}',
    covers           uuid[]   NOT NULL DEFAULT '{}',
    after            uuid[]   NOT NULL DEFAULT '{}',
    digest           text     NOT NULL DEFAULT '',
    ruling           text     NOT NULL DEFAULT '',
    penalty_kind     text     NOT NULL DEFAULT '',
    penalty_count    smallint NOT NULL DEFAULT 0 CHECK (penalty_count >= 0),
    penalty_points   double precision NOT NULL DEFAULT 0 CHECK (penalty_points >= 0),
    absent           boolean,
    status           text     NOT NULL DEFAULT '',
    wind             text     NOT NULL DEFAULT '' CHECK (wind IN ('', 'left', 'right')),
    reason           text     NOT NULL DEFAULT '',
    entered_at       text     NOT NULL DEFAULT '',
    author_role      text     NOT NULL,
    author_seat      uuid,
    author_device    text     NOT NULL,
    author_withdrawn boolean  NOT NULL,
    store            uuid     NOT NULL,
    seq              bigint   NOT NULL CHECK (seq >= 1),
    body             bytea    NOT NULL,
    received_at      timestamptz NOT NULL DEFAULT now(),
    PRIMARY KEY (contest_id, record_id),
    CHECK ((judge_id IS NOT NULL) = (kind IN ('grade', 'sign', 'reopen', 'absent'))),
    CHECK ((item IS NOT NULL) = (kind IN ('grade', 'ruling'))),
    CHECK ((ruling <> '') = (kind = 'ruling')),
    CHECK ((penalty_kind <> '') = (kind = 'penalty')),
    CHECK ((status <> '') = (kind = 'status')),
    CHECK ((absent IS NOT NULL) = (kind = 'absent')),
    CHECK ((digest <> '') = (kind = 'sign')),
    CHECK (sequence <> '' OR kind <> 'grade')
);
CREATE INDEX line_record_by_flight ON line_record (contest_id, flight_id, kind);
CREATE INDEX line_record_of_others ON line_record (contest_id) WHERE adopts <> '{}' OR kind = 'aside';
CREATE INDEX line_record_by_store ON line_record (contest_id, store, seq);
CREATE TRIGGER kept BEFORE UPDATE OR DELETE OR TRUNCATE ON line_record
    FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
ALTER TABLE line_record ENABLE ALWAYS TRIGGER kept;
COMMENT ON TABLE line_record IS 'Everything done on the line, as its device wrote it; only ever added to. A record of a flight or a judge that is not here is kept too, so neither is a reference. A column holds what the kind uses; body holds all.';
COMMENT ON COLUMN line_record.contest_id IS 'The contest.';
COMMENT ON COLUMN line_record.record_id IS 'UUIDv7 made by the device.';
COMMENT ON COLUMN line_record.kind IS 'What the record does.';
COMMENT ON COLUMN line_record.flight_id IS 'The flight it speaks of.';
COMMENT ON COLUMN line_record.attempt IS 'The attempt it speaks of, from 1.';
COMMENT ON COLUMN line_record.judge_id IS 'The seat it speaks of, as the judge whose it is.';
COMMENT ON COLUMN line_record.by_id IS 'The person in the seat, where that was another.';
COMMENT ON COLUMN line_record.item IS 'The item it speaks of, from 1.';
COMMENT ON COLUMN line_record.grade IS '0.0 to 10.0, HZ, PZ, A, or empty, which takes a grade back; a ruling''s is the grade set.';
COMMENT ON COLUMN line_record.remark IS 'The judge''s words; may be empty.';
COMMENT ON COLUMN line_record.sequence IS 'Digest of the sequence as it was shown.';
COMMENT ON COLUMN line_record.replaces IS 'Records of the same cell that it takes the place of.';
COMMENT ON COLUMN line_record.adopts IS 'Records that an official takes over.';
COMMENT ON COLUMN line_record.covers IS 'What a signature stands for, a closing has seen, or is set aside.';
COMMENT ON COLUMN line_record.after IS 'The reopenings that a signature knows.';
COMMENT ON COLUMN line_record.digest IS 'Of the sheet that is signed.';
COMMENT ON COLUMN line_record.ruling IS 'The chief judge''s decision.';
COMMENT ON COLUMN line_record.penalty_kind IS 'Which penalty.';
COMMENT ON COLUMN line_record.penalty_count IS 'How often it occurred; 0 takes it back.';
COMMENT ON COLUMN line_record.penalty_points IS 'Points for each occurrence.';
COMMENT ON COLUMN line_record.absent IS 'Whether the seat is absent, or back.';
COMMENT ON COLUMN line_record.status IS 'What the flight is doing.';
COMMENT ON COLUMN line_record.wind IS 'The side that the wind blows to, seen from the line.';
COMMENT ON COLUMN line_record.reason IS 'Why an official did it.';
COMMENT ON COLUMN line_record.entered_at IS 'By the device''s clock, as written; shown, and decides nothing.';
COMMENT ON COLUMN line_record.author_role IS 'Role of who made it.';
COMMENT ON COLUMN line_record.author_seat IS 'The judge whose seat the author''s device was paired for.';
COMMENT ON COLUMN line_record.author_device IS 'The pairing or account that it came from, or import.';
COMMENT ON COLUMN line_record.author_withdrawn IS 'The device had been withdrawn when it came.';
COMMENT ON COLUMN line_record.store IS 'The id of the device''s own database.';
COMMENT ON COLUMN line_record.seq IS 'Counts the records of a store from 1; tells what is missing, orders nothing.';
COMMENT ON COLUMN line_record.body IS 'The record''s bytes as received, signature included.';
COMMENT ON COLUMN line_record.received_at IS 'When it was stored.';
