DROP TABLE keyed_reading;
