DROP TABLE running_order;
