ALTER TABLE pilot
    DROP COLUMN note;
