DROP TABLE publication;
