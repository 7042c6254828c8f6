DROP TABLE sequence_item, sequence, flight, seat, programme, entry, category;
