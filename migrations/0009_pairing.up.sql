CREATE UNIQUE INDEX device_by_id ON device (device_id);

CREATE TABLE pairing (
    contest_id uuid NOT NULL REFERENCES contest,
    pairing_id uuid NOT NULL,
    role       text NOT NULL CHECK (role IN ('judge', 'assistant', 'chief', 'announcer')),
    judge_id   uuid,
    duty       text NOT NULL DEFAULT 'judge' CHECK (duty = 'judge'),
    code_hash  bytea NOT NULL CHECK (length(code_hash) = 32),
    link_hash  bytea NOT NULL CHECK (length(link_hash) = 32),
    made_at    timestamptz NOT NULL DEFAULT now(),
    made_by    text NOT NULL,
    expires_at timestamptz NOT NULL,
    device_id  uuid,
    PRIMARY KEY (contest_id, pairing_id),
    CHECK (role <> 'judge' OR judge_id IS NOT NULL),
    FOREIGN KEY (contest_id, judge_id, duty) REFERENCES official (contest_id, official_id, duty),
    FOREIGN KEY (contest_id, device_id) REFERENCES device
);
CREATE UNIQUE INDEX pairing_by_code ON pairing (code_hash);
CREATE UNIQUE INDEX pairing_by_link ON pairing (link_hash);
COMMENT ON TABLE pairing IS 'Offers to become a device of the line, each taken once, by a code that is typed or by a link.';
COMMENT ON COLUMN pairing.contest_id IS 'The contest.';
COMMENT ON COLUMN pairing.pairing_id IS 'UUIDv7.';
COMMENT ON COLUMN pairing.role IS 'What the device is paired for.';
COMMENT ON COLUMN pairing.judge_id IS 'The judge whose seat it is paired for; an assistant may have one too.';
COMMENT ON COLUMN pairing.duty IS 'Always judge: nobody else has a seat.';
COMMENT ON COLUMN pairing.code_hash IS 'SHA-256 of the code.';
COMMENT ON COLUMN pairing.link_hash IS 'SHA-256 of the secret in the link.';
COMMENT ON COLUMN pairing.made_at IS 'When it was made.';
COMMENT ON COLUMN pairing.made_by IS 'The account that made it.';
COMMENT ON COLUMN pairing.expires_at IS 'Until when it is good.';
COMMENT ON COLUMN pairing.device_id IS 'The device that took it; its key alone may take it again.';
