DROP TABLE pairing;
DROP INDEX device_by_id;
