CREATE TABLE season (
    season_id uuid        PRIMARY KEY,
    name      text        NOT NULL CHECK (name <> ''),
    rules     jsonb       NOT NULL,
    revision  bigint      NOT NULL DEFAULT 1 CHECK (revision >= 1),
    made_at   timestamptz NOT NULL DEFAULT now(),
    made_by   text        NOT NULL
);
COMMENT ON TABLE season IS 'Standings over several contests. Server-wide: it belongs to no one of them.';
COMMENT ON COLUMN season.season_id IS 'UUIDv7.';
COMMENT ON COLUMN season.name IS 'As on its page.';
COMMENT ON COLUMN season.rules IS 'How results become a standing.';
COMMENT ON COLUMN season.revision IS 'Counts its changes, so that nobody overwrites what they have not seen.';
COMMENT ON COLUMN season.made_at IS 'When it was made.';
COMMENT ON COLUMN season.made_by IS 'The account that made it.';

CREATE TABLE season_part (
    contest_id  uuid    NOT NULL,
    season_id   uuid    NOT NULL REFERENCES season,
    category_id uuid    NOT NULL,
    class       text    NOT NULL CHECK (class <> ''),
    position    integer NOT NULL,
    PRIMARY KEY (contest_id, season_id, category_id),
    FOREIGN KEY (contest_id, category_id) REFERENCES category ON DELETE CASCADE
);
CREATE INDEX season_part_by_season ON season_part (season_id, position);
COMMENT ON TABLE season_part IS 'The categories of contests whose standings make a season''s.';
COMMENT ON COLUMN season_part.contest_id IS 'The contest.';
COMMENT ON COLUMN season_part.season_id IS 'The season.';
COMMENT ON COLUMN season_part.category_id IS 'The category.';
COMMENT ON COLUMN season_part.class IS 'Which of the season''s standings it adds to, by name.';
COMMENT ON COLUMN season_part.position IS 'Order in which they were flown.';

CREATE TABLE season_person (
    contest_id uuid NOT NULL REFERENCES contest,
    season_id  uuid NOT NULL REFERENCES season,
    pilot      text NOT NULL CHECK (pilot <> ''),
    person_id  uuid NOT NULL,
    PRIMARY KEY (contest_id, season_id, pilot),
    UNIQUE (contest_id, season_id, person_id)
);
COMMENT ON TABLE season_person IS 'Who is the same person in several contests, as an office confirmed it. Whoever is not here is a person alone.';
COMMENT ON COLUMN season_person.contest_id IS 'The contest.';
COMMENT ON COLUMN season_person.season_id IS 'The season.';
COMMENT ON COLUMN season_person.pilot IS 'The pilot''s id in the contest''s publications.';
COMMENT ON COLUMN season_person.person_id IS 'The same for one person.';
