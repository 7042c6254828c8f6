ALTER TABLE flight
    ADD COLUMN description text NOT NULL DEFAULT '' CHECK (char_length(description) <= 1000),
    ADD CHECK (own_sequences OR description = '');
COMMENT ON COLUMN flight.description IS 'What is flown, in the pilot''s own words, for the announcer; of a free style alone.';
