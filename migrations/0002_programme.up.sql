CREATE TABLE category (
    contest_id  uuid NOT NULL REFERENCES contest,
    category_id uuid NOT NULL,
    code        text NOT NULL CHECK (code <> ''),
    position    integer NOT NULL,
    name        text NOT NULL,
    combine     text NOT NULL CHECK (combine IN ('sum', 'sum-percent', 'weighted-percent')),
    weights     jsonb CHECK (jsonb_typeof(weights) = 'object'),
    tie_break   text[] NOT NULL DEFAULT '{}',
    team_best   integer NOT NULL CHECK (team_best >= 0),
    PRIMARY KEY (contest_id, category_id),
    UNIQUE (contest_id, code),
    CHECK (combine <> 'weighted-percent' OR weights IS NOT NULL)
);
CREATE INDEX category_by_id ON category (category_id);
COMMENT ON TABLE category IS 'A level of competition inside a contest.';
COMMENT ON COLUMN category.contest_id IS 'The contest.';
COMMENT ON COLUMN category.category_id IS 'UUIDv7.';
COMMENT ON COLUMN category.code IS 'The id in bundles.';
COMMENT ON COLUMN category.position IS 'Order in lists and bundles.';
COMMENT ON COLUMN category.name IS 'As on prints; may be empty.';
COMMENT ON COLUMN category.combine IS 'How programmes add up: published scores, published percentages, or percentages times weights.';
COMMENT ON COLUMN category.weights IS 'Weights by programme code, adding up to 1. A bundle may name programmes that it does not hold.';
COMMENT ON COLUMN category.tie_break IS 'Codes of the programmes whose published scores break ties, in order.';
COMMENT ON COLUMN category.team_best IS 'Members counted for a team; 0 for no teams.';

CREATE TABLE entry (
    contest_id  uuid NOT NULL,
    category_id uuid NOT NULL,
    pilot_id    uuid NOT NULL,
    position    integer NOT NULL,
    ranked      boolean NOT NULL,
    team        text NOT NULL,
    PRIMARY KEY (contest_id, category_id, pilot_id),
    FOREIGN KEY (contest_id, category_id) REFERENCES category,
    FOREIGN KEY (contest_id, pilot_id) REFERENCES pilot
);
COMMENT ON TABLE entry IS 'A pilot in a category.';
COMMENT ON COLUMN entry.contest_id IS 'The contest.';
COMMENT ON COLUMN entry.category_id IS 'The category.';
COMMENT ON COLUMN entry.pilot_id IS 'The pilot.';
COMMENT ON COLUMN entry.position IS 'Order in lists and bundles.';
COMMENT ON COLUMN entry.ranked IS 'False is hors concours: scored, without a rank.';
COMMENT ON COLUMN entry.team IS 'Name of the team, empty for none.';

CREATE TABLE programme (
    contest_id    uuid NOT NULL,
    programme_id  uuid NOT NULL,
    category_id   uuid NOT NULL,
    code          text NOT NULL CHECK (code <> ''),
    position      integer NOT NULL,
    name          text NOT NULL,
    kind          text NOT NULL CHECK (kind IN ('known', 'free', 'unknown', 'freestyle')),
    own_sequences boolean NOT NULL GENERATED ALWAYS AS (kind IN ('free', 'freestyle')) STORED,
    cut           integer NOT NULL CHECK (cut >= 0),
    counts        boolean NOT NULL,
    frozen_at     timestamptz,
    method             text NOT NULL CHECK (method IN ('mean', 'trimmed-mean', 'normalised', 'consensus')),
    trim               integer NOT NULL CHECK (trim >= 0),
    discard            double precision NOT NULL CHECK (discard > 0 AND discard < 'Infinity'),
    style              boolean NOT NULL,
    seat_weights       text NOT NULL CHECK (seat_weights IN ('measured', 'equal')),
    outlier            double precision NOT NULL CHECK (outlier > 0 AND outlier < 'Infinity'),
    lean               double precision NOT NULL CHECK (lean > 0 AND lean < 'Infinity'),
    group_min          integer NOT NULL CHECK (group_min >= 1),
    hard_zero_majority text NOT NULL CHECK (hard_zero_majority IN ('more-than-half', 'half-or-more')),
    perception_zero    text NOT NULL CHECK (perception_zero IN ('majority', 'as-graded')),
    PRIMARY KEY (contest_id, programme_id),
    UNIQUE (contest_id, category_id, code),
    UNIQUE (contest_id, category_id, position) DEFERRABLE INITIALLY DEFERRED,
    UNIQUE (contest_id, programme_id, category_id, own_sequences),
    FOREIGN KEY (contest_id, category_id) REFERENCES category
);
CREATE INDEX programme_by_id ON programme (programme_id);
COMMENT ON TABLE programme IS 'One round of a category.';
COMMENT ON COLUMN programme.contest_id IS 'The contest.';
COMMENT ON COLUMN programme.programme_id IS 'UUIDv7.';
COMMENT ON COLUMN programme.category_id IS 'The category.';
COMMENT ON COLUMN programme.code IS 'The id in bundles, of its own within the category.';
COMMENT ON COLUMN programme.position IS 'Order flown.';
COMMENT ON COLUMN programme.name IS 'As on prints; may be empty.';
COMMENT ON COLUMN programme.kind IS 'In known and unknown all fly the same sequence, in free and freestyle each pilot the own.';
COMMENT ON COLUMN programme.own_sequences IS 'Follows from kind; sequences refer to it, so that a programme has those of its kind only.';
COMMENT ON COLUMN programme.cut IS 'How many go on after it; 0 for all.';
COMMENT ON COLUMN programme.counts IS 'False where it adds nothing to totals, ties and cuts.';
COMMENT ON COLUMN programme.frozen_at IS 'When its first flight was called: method and options then stand.';
COMMENT ON COLUMN programme.method IS 'How a panel''s grades become a score.';
COMMENT ON COLUMN programme.trim IS 'trimmed-mean: grades left out at each end.';
COMMENT ON COLUMN programme.discard IS 'normalised: standard deviations from the flight''s mean.';
COMMENT ON COLUMN programme.style IS 'consensus: whether seats'' spreads are matched first.';
COMMENT ON COLUMN programme.seat_weights IS 'consensus: seats weigh as measured, or equally.';
COMMENT ON COLUMN programme.outlier IS 'consensus: standard deviations beyond which a grade has no trust.';
COMMENT ON COLUMN programme.lean IS 'consensus: standard deviations beyond which a seat leans for or against a pilot.';
COMMENT ON COLUMN programme.group_min IS 'consensus: rows that a group of a free programme has at least.';
COMMENT ON COLUMN programme.hard_zero_majority IS 'How many hard zeros confirm one without a ruling.';
COMMENT ON COLUMN programme.perception_zero IS 'Whether a perception zero needs a majority.';

CREATE TABLE seat (
    contest_id   uuid NOT NULL,
    programme_id uuid NOT NULL,
    number       integer NOT NULL CHECK (number >= 1),
    judge_id     uuid NOT NULL,
    duty         text NOT NULL DEFAULT 'judge' CHECK (duty = 'judge'),
    PRIMARY KEY (contest_id, programme_id, number),
    UNIQUE (contest_id, programme_id, judge_id) DEFERRABLE INITIALLY DEFERRED,
    FOREIGN KEY (contest_id, programme_id) REFERENCES programme,
    FOREIGN KEY (contest_id, judge_id, duty) REFERENCES official (contest_id, official_id, duty)
);
COMMENT ON TABLE seat IS 'The panel of a programme: a judge''s chair on it.';
COMMENT ON COLUMN seat.contest_id IS 'The contest.';
COMMENT ON COLUMN seat.programme_id IS 'The programme.';
COMMENT ON COLUMN seat.number IS 'Counts from 1.';
COMMENT ON COLUMN seat.judge_id IS 'The judge whose chair it is.';
COMMENT ON COLUMN seat.duty IS 'Always judge: nobody else has a seat.';

CREATE TABLE flight (
    contest_id    uuid NOT NULL,
    flight_id     uuid NOT NULL,
    programme_id  uuid NOT NULL,
    category_id   uuid NOT NULL,
    own_sequences boolean NOT NULL,
    pilot_id      uuid NOT NULL,
    number        integer NOT NULL CHECK (number >= 1),
    position      integer NOT NULL CHECK (position >= 1),
    PRIMARY KEY (contest_id, flight_id),
    UNIQUE (contest_id, programme_id, number),
    UNIQUE (contest_id, programme_id, position) DEFERRABLE INITIALLY DEFERRED,
    UNIQUE (contest_id, programme_id, pilot_id),
    FOREIGN KEY (contest_id, programme_id, category_id, own_sequences)
        REFERENCES programme (contest_id, programme_id, category_id, own_sequences),
    FOREIGN KEY (contest_id, category_id, pilot_id) REFERENCES entry
);
CREATE INDEX flight_by_id ON flight (flight_id);
COMMENT ON TABLE flight IS 'One pilot''s performance of one programme. What it does, its attempts and its sheets follow from the records of the line.';
COMMENT ON COLUMN flight.contest_id IS 'The contest.';
COMMENT ON COLUMN flight.flight_id IS 'UUIDv7.';
COMMENT ON COLUMN flight.programme_id IS 'The programme.';
COMMENT ON COLUMN flight.category_id IS 'The programme''s category, in which the pilot must be entered.';
COMMENT ON COLUMN flight.own_sequences IS 'The programme''s; its kind cannot change under its flights.';
COMMENT ON COLUMN flight.pilot_id IS 'The pilot.';
COMMENT ON COLUMN flight.number IS 'As called on the radio; fixed for good. Bundles and results are in this order.';
COMMENT ON COLUMN flight.position IS 'Place in the running order, from 1.';

CREATE TABLE sequence (
    contest_id    uuid NOT NULL,
    sequence_id   uuid NOT NULL,
    programme_id  uuid NOT NULL,
    category_id   uuid NOT NULL,
    own_sequences boolean NOT NULL,
    pilot_id      uuid,
    digest        text NOT NULL CHECK (digest ~ '^[0-9a-f]{64}$'),
    entry         json,
    released_at   timestamptz,
    PRIMARY KEY (contest_id, sequence_id),
    UNIQUE NULLS NOT DISTINCT (contest_id, programme_id, pilot_id),
    CHECK (own_sequences = (pilot_id IS NOT NULL)),
    FOREIGN KEY (contest_id, programme_id, category_id, own_sequences)
        REFERENCES programme (contest_id, programme_id, category_id, own_sequences),
    FOREIGN KEY (contest_id, category_id, pilot_id) REFERENCES entry
);
COMMENT ON TABLE sequence IS 'What is flown: one of a known or unknown programme, one of each pilot of a free or freestyle. It says nothing about whether it can be flown safely.';
COMMENT ON COLUMN sequence.contest_id IS 'The contest.';
COMMENT ON COLUMN sequence.sequence_id IS 'UUIDv7.';
COMMENT ON COLUMN sequence.programme_id IS 'The programme.';
COMMENT ON COLUMN sequence.category_id IS 'The programme''s category, in which the pilot must be entered.';
COMMENT ON COLUMN sequence.own_sequences IS 'The programme''s; true exactly where there is a pilot.';
COMMENT ON COLUMN sequence.pilot_id IS 'Whose own it is, where the programme has such.';
COMMENT ON COLUMN sequence.digest IS 'What it asks for; a grade given for another one does not count.';
COMMENT ON COLUMN sequence.entry IS 'How the first figure begins, as written.';
COMMENT ON COLUMN sequence.released_at IS 'When it was released; before, only the office sees it.';

CREATE TABLE sequence_item (
    contest_id  uuid NOT NULL,
    sequence_id uuid NOT NULL,
    number      integer NOT NULL CHECK (number BETWEEN 1 AND 40),
    kind        text NOT NULL CHECK (kind IN ('figure', 'overall')),
    k           integer NOT NULL CHECK (k > 0),
    elements    text[],
    class       text NOT NULL,
    name        text NOT NULL,
    element_k   json,
    words       json,
    entry       json,
    moves       json,
    PRIMARY KEY (contest_id, sequence_id, number),
    FOREIGN KEY (contest_id, sequence_id) REFERENCES sequence
);
COMMENT ON TABLE sequence_item IS 'A line of the score sheet.';
COMMENT ON COLUMN sequence_item.contest_id IS 'The contest.';
COMMENT ON COLUMN sequence_item.sequence_id IS 'The sequence.';
COMMENT ON COLUMN sequence_item.number IS 'Counts from 1.';
COMMENT ON COLUMN sequence_item.kind IS 'A figure, or a mark for the whole flight.';
COMMENT ON COLUMN sequence_item.k IS 'Difficulty coefficient in tenths.';
COMMENT ON COLUMN sequence_item.elements IS 'Catalogue numbers as typed, where given.';
COMMENT ON COLUMN sequence_item.class IS 'Empty where it is the one that follows from the elements.';
COMMENT ON COLUMN sequence_item.name IS 'As on prints; may be empty.';
COMMENT ON COLUMN sequence_item.element_k IS 'K of each element, as written.';
COMMENT ON COLUMN sequence_item.words IS 'What the caller says instead of our own words, as written.';
COMMENT ON COLUMN sequence_item.entry IS 'How the figure begins, as written.';
COMMENT ON COLUMN sequence_item.moves IS 'The moves of the figure, as written.';
