ALTER TABLE pilot
    ADD COLUMN note text NOT NULL DEFAULT '' CHECK (char_length(note) <= 500);
COMMENT ON COLUMN pilot.note IS 'A line about the pilot, for the announcer.';
