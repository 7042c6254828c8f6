DROP TABLE line_record, device;
