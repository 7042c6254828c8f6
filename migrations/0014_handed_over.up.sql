ALTER TABLE device
    ADD COLUMN handed_over_at timestamptz;
COMMENT ON COLUMN device.handed_over_at IS 'When another device last brought records that it showed as codes; null for never. It is no contact of the device.';
