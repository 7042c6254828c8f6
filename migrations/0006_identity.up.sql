CREATE TABLE account (
    account_id   uuid PRIMARY KEY,
    email        text NOT NULL CHECK (email <> ''),
    name         text NOT NULL CHECK (name <> ''),
    password     text NOT NULL,
    owner        boolean NOT NULL,
    code_key     bytea,
    code_since   timestamptz,
    code_step    bigint NOT NULL DEFAULT 0,
    created_at   timestamptz NOT NULL DEFAULT now(),
    disabled_at  timestamptz,
    CHECK (code_since IS NULL OR code_key IS NOT NULL)
);
CREATE UNIQUE INDEX account_by_email ON account (lower(email));
COMMENT ON TABLE account IS 'A person who signs in. Server-wide: one person works at many contests.';
COMMENT ON COLUMN account.account_id IS 'UUIDv7.';
COMMENT ON COLUMN account.email IS 'As typed; no two differ by case alone.';
COMMENT ON COLUMN account.name IS 'As others see it.';
COMMENT ON COLUMN account.password IS 'Its hash by argon2id; empty where there is none, and a link is needed.';
COMMENT ON COLUMN account.owner IS 'It owns the server: may do everything, and make contests.';
COMMENT ON COLUMN account.code_key IS 'Key of the second factor, where one is set up or being set up.';
COMMENT ON COLUMN account.code_since IS 'When the first code was right: the second factor is asked for from then on.';
COMMENT ON COLUMN account.code_step IS 'The last step of time whose code was taken; one is taken once.';
COMMENT ON COLUMN account.created_at IS 'When it was made.';
COMMENT ON COLUMN account.disabled_at IS 'When it was disabled: nobody signs in with it, and its sessions are over.';

CREATE TABLE link (
    hash       bytea PRIMARY KEY CHECK (length(hash) = 32),
    purpose    text NOT NULL CHECK (purpose IN ('first', 'password', 'sign-in')),
    account_id uuid REFERENCES account,
    made_at    timestamptz NOT NULL DEFAULT now(),
    expires_at timestamptz NOT NULL,
    used_at    timestamptz,
    CHECK ((purpose = 'first') = (account_id IS NULL))
);
COMMENT ON TABLE link IS 'Links that are good once. Server-wide: they are for accounts.';
COMMENT ON COLUMN link.hash IS 'SHA-256 of the secret in it.';
COMMENT ON COLUMN link.purpose IS 'What it is good for: to make the first account, to choose a new password, to sign in.';
COMMENT ON COLUMN link.account_id IS 'Whose it is.';
COMMENT ON COLUMN link.made_at IS 'When it was made.';
COMMENT ON COLUMN link.expires_at IS 'Until when it is good.';
COMMENT ON COLUMN link.used_at IS 'When it was used.';

CREATE TABLE contest_role (
    contest_id uuid NOT NULL REFERENCES contest,
    account_id uuid NOT NULL REFERENCES account,
    role       text NOT NULL CHECK (role IN ('director', 'office', 'jury', 'pilot')),
    pilot_id   uuid,
    given_at   timestamptz NOT NULL DEFAULT now(),
    PRIMARY KEY (contest_id, account_id, role),
    FOREIGN KEY (contest_id, pilot_id) REFERENCES pilot,
    CHECK ((role = 'pilot') = (pilot_id IS NOT NULL))
);
CREATE INDEX contest_role_by_account ON contest_role (account_id);
COMMENT ON TABLE contest_role IS 'What an account may do in a contest; the journal tells who gave and took it.';
COMMENT ON COLUMN contest_role.contest_id IS 'The contest.';
COMMENT ON COLUMN contest_role.account_id IS 'The account.';
COMMENT ON COLUMN contest_role.role IS 'A row of the table of access.';
COMMENT ON COLUMN contest_role.pilot_id IS 'Which pilot of the contest the account is.';
COMMENT ON COLUMN contest_role.given_at IS 'When it was given.';

CREATE TABLE invitation (
    contest_id    uuid NOT NULL REFERENCES contest,
    invitation_id uuid NOT NULL,
    hash          bytea NOT NULL CHECK (length(hash) = 32),
    role          text NOT NULL CHECK (role IN ('director', 'office', 'jury', 'pilot')),
    pilot_id      uuid,
    note          text NOT NULL,
    made_at       timestamptz NOT NULL DEFAULT now(),
    made_by       text NOT NULL,
    expires_at    timestamptz NOT NULL,
    accepted_at   timestamptz,
    accepted_by   uuid REFERENCES account,
    withdrawn_at  timestamptz,
    PRIMARY KEY (contest_id, invitation_id),
    FOREIGN KEY (contest_id, pilot_id) REFERENCES pilot,
    CHECK ((role = 'pilot') = (pilot_id IS NOT NULL)),
    CHECK ((accepted_at IS NULL) = (accepted_by IS NULL))
);
CREATE UNIQUE INDEX invitation_by_hash ON invitation (hash);
COMMENT ON TABLE invitation IS 'Links by which a person gets a role in a contest, each once.';
COMMENT ON COLUMN invitation.contest_id IS 'The contest.';
COMMENT ON COLUMN invitation.invitation_id IS 'UUIDv7.';
COMMENT ON COLUMN invitation.hash IS 'SHA-256 of the secret in the link.';
COMMENT ON COLUMN invitation.role IS 'The role that it gives.';
COMMENT ON COLUMN invitation.pilot_id IS 'Which pilot of the contest the person is.';
COMMENT ON COLUMN invitation.note IS 'Whom it is for, in the words of who made it; may be empty.';
COMMENT ON COLUMN invitation.made_at IS 'When it was made.';
COMMENT ON COLUMN invitation.made_by IS 'The account that made it; empty for the machine''s own operator.';
COMMENT ON COLUMN invitation.expires_at IS 'Until when it is good.';
COMMENT ON COLUMN invitation.accepted_at IS 'When it was accepted.';
COMMENT ON COLUMN invitation.accepted_by IS 'The account that accepted it.';
COMMENT ON COLUMN invitation.withdrawn_at IS 'When it was withdrawn.';

CREATE TABLE session (
    session_id   uuid PRIMARY KEY,
    hash         bytea NOT NULL CHECK (length(hash) = 32),
    account_id   uuid REFERENCES account,
    contest_id   uuid,
    device_id    uuid,
    created_at   timestamptz NOT NULL DEFAULT now(),
    last_seen_at timestamptz NOT NULL DEFAULT now(),
    confirmed_at timestamptz,
    user_agent   text NOT NULL,
    expires_at   timestamptz NOT NULL,
    withdrawn_at timestamptz,
    FOREIGN KEY (contest_id, device_id) REFERENCES device,
    CHECK ((account_id IS NULL) <> (device_id IS NULL)),
    CHECK ((contest_id IS NULL) = (device_id IS NULL))
);
CREATE UNIQUE INDEX session_by_hash ON session (hash);
CREATE INDEX session_by_account ON session (account_id);
CREATE INDEX session_by_device ON session (contest_id, device_id);
COMMENT ON TABLE session IS 'Who is signed in where: an account or a paired device. Server-wide: a request shows its session before it is known of which contest it speaks.';
COMMENT ON COLUMN session.session_id IS 'UUIDv7.';
COMMENT ON COLUMN session.hash IS 'SHA-256 of the 256 random bits in the cookie.';
COMMENT ON COLUMN session.account_id IS 'The account, where it is one''s.';
COMMENT ON COLUMN session.contest_id IS 'The contest of the device.';
COMMENT ON COLUMN session.device_id IS 'The device, where it is one''s.';
COMMENT ON COLUMN session.created_at IS 'When it began.';
COMMENT ON COLUMN session.last_seen_at IS 'When it was last used, to the minute.';
COMMENT ON COLUMN session.confirmed_at IS 'When the password was last given in it.';
COMMENT ON COLUMN session.user_agent IS 'The browser, as it names itself.';
COMMENT ON COLUMN session.expires_at IS 'When it ends by itself.';
COMMENT ON COLUMN session.withdrawn_at IS 'When it was ended before.';
