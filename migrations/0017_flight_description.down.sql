ALTER TABLE flight
    DROP COLUMN description;
