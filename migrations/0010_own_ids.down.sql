DROP INDEX category_by_id, programme_by_id, flight_by_id, publication_by_id;
CREATE INDEX category_by_id ON category (category_id);
CREATE INDEX programme_by_id ON programme (programme_id);
CREATE INDEX flight_by_id ON flight (flight_id);
CREATE INDEX publication_by_id ON publication (publication_id);
