-- These are found by their own id, and whoever sets a contest up chooses it: one
-- that another contest has must be refused.
DROP INDEX category_by_id, programme_by_id, flight_by_id, publication_by_id;
CREATE UNIQUE INDEX category_by_id ON category (category_id);
CREATE UNIQUE INDEX programme_by_id ON programme (programme_id);
CREATE UNIQUE INDEX flight_by_id ON flight (flight_id);
CREATE UNIQUE INDEX publication_by_id ON publication (publication_id);
