CREATE TABLE keyed_reading (
    contest_id uuid     NOT NULL,
    reading_id uuid     NOT NULL,
    flight_id  uuid     NOT NULL,
    judge_id   uuid     NOT NULL,
    attempt    integer  NOT NULL CHECK (attempt >= 1),
    number     integer  NOT NULL CHECK (number >= 1),
    sequence   text     NOT NULL,
    grades     text[]   NOT NULL,
    remarks    text[]   NOT NULL,
    signed     boolean  NOT NULL,
    keyed_by   text     NOT NULL,
    keyed_at   timestamptz NOT NULL DEFAULT clock_timestamp(),
    used       boolean  NOT NULL DEFAULT false,
    PRIMARY KEY (contest_id, reading_id),
    UNIQUE (contest_id, flight_id, judge_id, number),
    CHECK (array_length(grades, 1) = array_length(remarks, 1)),
    FOREIGN KEY (contest_id, flight_id) REFERENCES flight
);
COMMENT ON TABLE keyed_reading IS 'What was keyed of paper sheets: two readings that agree become records of the line.';
COMMENT ON COLUMN keyed_reading.contest_id IS 'The contest.';
COMMENT ON COLUMN keyed_reading.reading_id IS 'Of the one who keyed: what is sent twice is one reading.';
COMMENT ON COLUMN keyed_reading.flight_id IS 'The flight.';
COMMENT ON COLUMN keyed_reading.judge_id IS 'The seat, as the judge whose it is.';
COMMENT ON COLUMN keyed_reading.attempt IS 'Of the flight.';
COMMENT ON COLUMN keyed_reading.number IS 'Which reading of the sheet it is, from 1.';
COMMENT ON COLUMN keyed_reading.sequence IS 'Digest of the sequence that was keyed against.';
COMMENT ON COLUMN keyed_reading.grades IS 'One for each item, as in a record; empty where the paper says nothing.';
COMMENT ON COLUMN keyed_reading.remarks IS 'One for each item, mostly empty.';
COMMENT ON COLUMN keyed_reading.signed IS 'Whether the judge''s signature stands on the paper.';
COMMENT ON COLUMN keyed_reading.keyed_by IS 'The account.';
COMMENT ON COLUMN keyed_reading.keyed_at IS 'By the database''s clock.';
COMMENT ON COLUMN keyed_reading.used IS 'It became records, or was thrown away: it is held against no other one.';
