ALTER TABLE device
    DROP COLUMN handed_over_at;
