CREATE FUNCTION public.refuse_change() RETURNS trigger
    LANGUAGE plpgsql
    AS $$
BEGIN
    RAISE EXCEPTION 'rows of % are never changed or deleted', TG_TABLE_NAME
        USING ERRCODE = 'restrict_violation';
END
$$;

COMMENT ON FUNCTION public.refuse_change() IS 'Makes a table one that is only ever added to.';

CREATE TABLE public.account (
    account_id uuid NOT NULL,
    email text NOT NULL,
    name text NOT NULL,
    password text NOT NULL,
    owner boolean NOT NULL,
    code_key bytea,
    code_since timestamp with time zone,
    code_step bigint DEFAULT 0 NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL,
    disabled_at timestamp with time zone,
    CONSTRAINT account_check CHECK (((code_since IS NULL) OR (code_key IS NOT NULL))),
    CONSTRAINT account_email_check CHECK ((email <> ''::text)),
    CONSTRAINT account_name_check CHECK ((name <> ''::text))
);

COMMENT ON TABLE public.account IS 'A person who signs in. Server-wide: one person works at many contests.';

COMMENT ON COLUMN public.account.account_id IS 'UUIDv7.';

COMMENT ON COLUMN public.account.email IS 'As typed; no two differ by case alone.';

COMMENT ON COLUMN public.account.name IS 'As others see it.';

COMMENT ON COLUMN public.account.password IS 'Its hash by argon2id; empty where there is none, and a link is needed.';

COMMENT ON COLUMN public.account.owner IS 'It owns the server: may do everything, and make contests.';

COMMENT ON COLUMN public.account.code_key IS 'Key of the second factor, where one is set up or being set up.';

COMMENT ON COLUMN public.account.code_since IS 'When the first code was right: the second factor is asked for from then on.';

COMMENT ON COLUMN public.account.code_step IS 'The last step of time whose code was taken; one is taken once.';

COMMENT ON COLUMN public.account.created_at IS 'When it was made.';

COMMENT ON COLUMN public.account.disabled_at IS 'When it was disabled: nobody signs in with it, and its sessions are over.';

CREATE TABLE public.analysis_opening (
    contest_id uuid NOT NULL,
    programme_id uuid NOT NULL,
    opened_at timestamp with time zone DEFAULT clock_timestamp() NOT NULL,
    opened_by text NOT NULL
);

COMMENT ON TABLE public.analysis_opening IS 'Programmes of whose judges everyone sees the analysis who sees the contest; for good.';

COMMENT ON COLUMN public.analysis_opening.contest_id IS 'The contest.';

COMMENT ON COLUMN public.analysis_opening.programme_id IS 'The programme.';

COMMENT ON COLUMN public.analysis_opening.opened_at IS 'By the database''s clock.';

COMMENT ON COLUMN public.analysis_opening.opened_by IS 'The account.';

CREATE TABLE public.category (
    contest_id uuid NOT NULL,
    category_id uuid NOT NULL,
    code text NOT NULL,
    "position" integer NOT NULL,
    name text NOT NULL,
    combine text NOT NULL,
    weights jsonb,
    tie_break text[] DEFAULT '{}'::text[] NOT NULL,
    team_best integer NOT NULL,
    revision bigint DEFAULT 1 NOT NULL,
    limits json,
    limits_note text DEFAULT ''::text NOT NULL,
    CONSTRAINT category_check CHECK (((combine <> 'weighted-percent'::text) OR (weights IS NOT NULL))),
    CONSTRAINT category_code_check CHECK ((code <> ''::text)),
    CONSTRAINT category_combine_check CHECK ((combine = ANY (ARRAY['sum'::text, 'sum-percent'::text, 'weighted-percent'::text]))),
    CONSTRAINT category_limits_check CHECK ((json_typeof(limits) = 'object'::text)),
    CONSTRAINT category_revision_check CHECK ((revision >= 1)),
    CONSTRAINT category_team_best_check CHECK ((team_best >= 0)),
    CONSTRAINT category_weights_check CHECK ((jsonb_typeof(weights) = 'object'::text))
);

COMMENT ON TABLE public.category IS 'A level of competition inside a contest.';

COMMENT ON COLUMN public.category.contest_id IS 'The contest.';

COMMENT ON COLUMN public.category.category_id IS 'UUIDv7.';

COMMENT ON COLUMN public.category.code IS 'The id in bundles.';

COMMENT ON COLUMN public.category."position" IS 'Order in lists and bundles.';

COMMENT ON COLUMN public.category.name IS 'As on prints; may be empty.';

COMMENT ON COLUMN public.category.combine IS 'How programmes add up: published scores, published percentages, or percentages times weights.';

COMMENT ON COLUMN public.category.weights IS 'Weights by programme code, adding up to 1. A bundle may name programmes that it does not hold.';

COMMENT ON COLUMN public.category.tie_break IS 'Codes of the programmes whose published scores break ties, in order.';

COMMENT ON COLUMN public.category.team_best IS 'Members counted for a team; 0 for no teams.';

COMMENT ON COLUMN public.category.revision IS 'Counts the changes of the row.';

COMMENT ON COLUMN public.category.limits IS 'What its sequences must keep, as written; none where there are no limits.';

COMMENT ON COLUMN public.category.limits_note IS 'Where the limits come from; may be empty.';

CREATE TABLE public.contest (
    contest_id uuid NOT NULL,
    name text NOT NULL,
    place text NOT NULL,
    starts date,
    ends date,
    opened text NOT NULL,
    created_at timestamp with time zone DEFAULT now() NOT NULL,
    revision bigint DEFAULT 1 NOT NULL,
    CONSTRAINT contest_check CHECK ((ends >= starts)),
    CONSTRAINT contest_opened_check CHECK ((opened = ANY (ARRAY['closed'::text, 'published'::text, 'live'::text]))),
    CONSTRAINT contest_revision_check CHECK ((revision >= 1))
);

COMMENT ON TABLE public.contest IS 'A contest; every other table of a contest has contest_id first in its key.';

COMMENT ON COLUMN public.contest.contest_id IS 'UUIDv7; in the order in which contests were made.';

COMMENT ON COLUMN public.contest.name IS 'As on prints; may be empty.';

COMMENT ON COLUMN public.contest.place IS 'Where it is flown; may be empty.';

COMMENT ON COLUMN public.contest.starts IS 'First day, where known.';

COMMENT ON COLUMN public.contest.ends IS 'Last day, where known.';

COMMENT ON COLUMN public.contest.opened IS 'Who sees it besides its officials: closed nobody, published anyone its publications, live anyone its live results.';

COMMENT ON COLUMN public.contest.created_at IS 'When it was made here.';

COMMENT ON COLUMN public.contest.revision IS 'Counts the changes of the set-up, so that nobody overwrites what they have not seen.';

CREATE TABLE public.contest_head (
    contest_id uuid NOT NULL,
    version bigint NOT NULL,
    journal_number bigint NOT NULL,
    journal_hash bytea NOT NULL,
    CONSTRAINT contest_head_journal_hash_check CHECK ((length(journal_hash) = 32)),
    CONSTRAINT contest_head_journal_number_check CHECK ((journal_number >= 0)),
    CONSTRAINT contest_head_version_check CHECK ((version >= 0))
);

COMMENT ON TABLE public.contest_head IS 'Where a contest stands; raised by every change as the last thing before its commit.';

COMMENT ON COLUMN public.contest_head.contest_id IS 'The contest.';

COMMENT ON COLUMN public.contest_head.version IS 'Counts the changes from 1; what was read at one version is the same for ever, within an epoch.';

COMMENT ON COLUMN public.contest_head.journal_number IS 'Number of the last row of the journal, 0 before the first.';

COMMENT ON COLUMN public.contest_head.journal_hash IS 'Hash of the last row of the journal, 32 zero bytes before the first.';

CREATE TABLE public.contest_role (
    contest_id uuid NOT NULL,
    account_id uuid NOT NULL,
    role text NOT NULL,
    pilot_id uuid,
    given_at timestamp with time zone DEFAULT now() NOT NULL,
    judge_id uuid,
    CONSTRAINT contest_role_check CHECK (((role = 'pilot'::text) = (pilot_id IS NOT NULL))),
    CONSTRAINT contest_role_check1 CHECK (((role = 'judge'::text) = (judge_id IS NOT NULL))),
    CONSTRAINT contest_role_role_check CHECK ((role = ANY (ARRAY['director'::text, 'office'::text, 'jury'::text, 'pilot'::text, 'judge'::text])))
);

COMMENT ON TABLE public.contest_role IS 'What an account may do in a contest; the journal tells who gave and took it.';

COMMENT ON COLUMN public.contest_role.contest_id IS 'The contest.';

COMMENT ON COLUMN public.contest_role.account_id IS 'The account.';

COMMENT ON COLUMN public.contest_role.role IS 'A row of the table of access.';

COMMENT ON COLUMN public.contest_role.pilot_id IS 'Which pilot of the contest the account is.';

COMMENT ON COLUMN public.contest_role.given_at IS 'When it was given.';

COMMENT ON COLUMN public.contest_role.judge_id IS 'Which judge of the contest the account is.';

CREATE TABLE public.device (
    contest_id uuid NOT NULL,
    device_id uuid NOT NULL,
    role text NOT NULL,
    judge_id uuid,
    duty text DEFAULT 'judge'::text NOT NULL,
    public_key bytea NOT NULL,
    store uuid,
    unsent integer,
    paired_at timestamp with time zone DEFAULT now() NOT NULL,
    last_contact_at timestamp with time zone,
    withdrawn_at timestamp with time zone,
    handed_over_at timestamp with time zone,
    CONSTRAINT device_check CHECK (((role <> 'judge'::text) OR (judge_id IS NOT NULL))),
    CONSTRAINT device_duty_check CHECK ((duty = 'judge'::text)),
    CONSTRAINT device_role_check CHECK ((role = ANY (ARRAY['judge'::text, 'assistant'::text, 'chief'::text, 'announcer'::text]))),
    CONSTRAINT device_unsent_check CHECK ((unsent >= 0))
);

COMMENT ON TABLE public.device IS 'The devices on the line, each paired once.';

COMMENT ON COLUMN public.device.contest_id IS 'The contest.';

COMMENT ON COLUMN public.device.device_id IS 'UUIDv7 of the pairing; the author of the device''s records.';

COMMENT ON COLUMN public.device.role IS 'What it was paired for.';

COMMENT ON COLUMN public.device.judge_id IS 'The judge whose seat it was paired for; an assistant may have one too.';

COMMENT ON COLUMN public.device.duty IS 'Always judge: nobody else has a seat.';

COMMENT ON COLUMN public.device.public_key IS 'P-256, which its records are signed with.';

COMMENT ON COLUMN public.device.store IS 'The id of its own database, once it has sent something.';

COMMENT ON COLUMN public.device.unsent IS 'How many records it last said were waiting there.';

COMMENT ON COLUMN public.device.paired_at IS 'When it was paired.';

COMMENT ON COLUMN public.device.last_contact_at IS 'When it was last heard of.';

COMMENT ON COLUMN public.device.withdrawn_at IS 'When it was withdrawn; what it sends later is held.';

COMMENT ON COLUMN public.device.handed_over_at IS 'When another device last brought records that it showed as codes; null for never. It is no contact of the device.';

CREATE TABLE public.entry (
    contest_id uuid NOT NULL,
    category_id uuid NOT NULL,
    pilot_id uuid NOT NULL,
    "position" integer NOT NULL,
    ranked boolean NOT NULL,
    team text NOT NULL,
    revision bigint DEFAULT 1 NOT NULL,
    entry_id uuid DEFAULT gen_random_uuid() NOT NULL,
    CONSTRAINT entry_revision_check CHECK ((revision >= 1))
);

COMMENT ON TABLE public.entry IS 'A pilot in a category.';

COMMENT ON COLUMN public.entry.contest_id IS 'The contest.';

COMMENT ON COLUMN public.entry.category_id IS 'The category.';

COMMENT ON COLUMN public.entry.pilot_id IS 'The pilot.';

COMMENT ON COLUMN public.entry."position" IS 'Order in lists and bundles.';

COMMENT ON COLUMN public.entry.ranked IS 'False is hors concours: scored, without a rank.';

COMMENT ON COLUMN public.entry.team IS 'Name of the team, empty for none.';

COMMENT ON COLUMN public.entry.revision IS 'Counts the changes of the row.';

COMMENT ON COLUMN public.entry.entry_id IS 'Names the row while it is edited.';

CREATE TABLE public.flight (
    contest_id uuid NOT NULL,
    flight_id uuid NOT NULL,
    programme_id uuid NOT NULL,
    category_id uuid NOT NULL,
    own_sequences boolean NOT NULL,
    pilot_id uuid NOT NULL,
    number integer NOT NULL,
    "position" integer NOT NULL,
    description text DEFAULT ''::text NOT NULL,
    CONSTRAINT flight_check CHECK ((own_sequences OR (description = ''::text))),
    CONSTRAINT flight_description_check CHECK ((char_length(description) <= 1000)),
    CONSTRAINT flight_number_check CHECK ((number >= 1)),
    CONSTRAINT flight_position_check CHECK (("position" >= 1))
);

COMMENT ON TABLE public.flight IS 'One pilot''s performance of one programme. What it does, its attempts and its sheets follow from the records of the line.';

COMMENT ON COLUMN public.flight.contest_id IS 'The contest.';

COMMENT ON COLUMN public.flight.flight_id IS 'UUIDv7.';

COMMENT ON COLUMN public.flight.programme_id IS 'The programme.';

COMMENT ON COLUMN public.flight.category_id IS 'The programme''s category, in which the pilot must be entered.';

COMMENT ON COLUMN public.flight.own_sequences IS 'The programme''s; its kind cannot change under its flights.';

COMMENT ON COLUMN public.flight.pilot_id IS 'The pilot.';

COMMENT ON COLUMN public.flight.number IS 'As called on the radio; fixed for good. Bundles and results are in this order.';

COMMENT ON COLUMN public.flight."position" IS 'Place in the running order, from 1.';

COMMENT ON COLUMN public.flight.description IS 'What is flown, in the pilot''s own words, for the announcer; of a free style alone.';

CREATE TABLE public.invitation (
    contest_id uuid NOT NULL,
    invitation_id uuid NOT NULL,
    hash bytea NOT NULL,
    role text NOT NULL,
    pilot_id uuid,
    note text NOT NULL,
    made_at timestamp with time zone DEFAULT now() NOT NULL,
    made_by text NOT NULL,
    expires_at timestamp with time zone NOT NULL,
    accepted_at timestamp with time zone,
    accepted_by uuid,
    withdrawn_at timestamp with time zone,
    judge_id uuid,
    CONSTRAINT invitation_check CHECK (((role = 'pilot'::text) = (pilot_id IS NOT NULL))),
    CONSTRAINT invitation_check1 CHECK (((accepted_at IS NULL) = (accepted_by IS NULL))),
    CONSTRAINT invitation_check2 CHECK (((role = 'judge'::text) = (judge_id IS NOT NULL))),
    CONSTRAINT invitation_hash_check CHECK ((length(hash) = 32)),
    CONSTRAINT invitation_role_check CHECK ((role = ANY (ARRAY['director'::text, 'office'::text, 'jury'::text, 'pilot'::text, 'judge'::text])))
);

COMMENT ON TABLE public.invitation IS 'Links by which a person gets a role in a contest, each once.';

COMMENT ON COLUMN public.invitation.contest_id IS 'The contest.';

COMMENT ON COLUMN public.invitation.invitation_id IS 'UUIDv7.';

COMMENT ON COLUMN public.invitation.hash IS 'SHA-256 of the secret in the link.';

COMMENT ON COLUMN public.invitation.role IS 'The role that it gives.';

COMMENT ON COLUMN public.invitation.pilot_id IS 'Which pilot of the contest the person is.';

COMMENT ON COLUMN public.invitation.note IS 'Whom it is for, in the words of who made it; may be empty.';

COMMENT ON COLUMN public.invitation.made_at IS 'When it was made.';

COMMENT ON COLUMN public.invitation.made_by IS 'The account that made it; empty for the machine''s own operator.';

COMMENT ON COLUMN public.invitation.expires_at IS 'Until when it is good.';

COMMENT ON COLUMN public.invitation.accepted_at IS 'When it was accepted.';

COMMENT ON COLUMN public.invitation.accepted_by IS 'The account that accepted it.';

COMMENT ON COLUMN public.invitation.withdrawn_at IS 'When it was withdrawn.';

COMMENT ON COLUMN public.invitation.judge_id IS 'Which judge of the contest the person is.';

CREATE TABLE public.journal (
    contest_id uuid NOT NULL,
    number bigint NOT NULL,
    body bytea NOT NULL,
    hash bytea NOT NULL,
    CONSTRAINT journal_hash_check CHECK ((length(hash) = 32)),
    CONSTRAINT journal_number_check CHECK ((number >= 1))
);

COMMENT ON TABLE public.journal IS 'Every change that matters, each bound to all before it; only ever added to.';

COMMENT ON COLUMN public.journal.contest_id IS 'The contest.';

COMMENT ON COLUMN public.journal.number IS 'Counts from 1 without a hole.';

COMMENT ON COLUMN public.journal.body IS 'What was done, when and by whom, as JSON; these very bytes are hashed.';

COMMENT ON COLUMN public.journal.hash IS 'SHA-256 of the previous hash (32 zero bytes before the first), the number as 8 bytes big-endian, and body.';

CREATE TABLE public.keyed_reading (
    contest_id uuid NOT NULL,
    reading_id uuid NOT NULL,
    flight_id uuid NOT NULL,
    judge_id uuid NOT NULL,
    attempt integer NOT NULL,
    number integer NOT NULL,
    sequence text NOT NULL,
    grades text[] NOT NULL,
    remarks text[] NOT NULL,
    signed boolean NOT NULL,
    keyed_by text NOT NULL,
    keyed_at timestamp with time zone DEFAULT clock_timestamp() NOT NULL,
    used boolean DEFAULT false NOT NULL,
    CONSTRAINT keyed_reading_attempt_check CHECK ((attempt >= 1)),
    CONSTRAINT keyed_reading_check CHECK ((array_length(grades, 1) = array_length(remarks, 1))),
    CONSTRAINT keyed_reading_number_check CHECK ((number >= 1))
);

COMMENT ON TABLE public.keyed_reading IS 'What was keyed of paper sheets: two readings that agree become records of the line.';

COMMENT ON COLUMN public.keyed_reading.contest_id IS 'The contest.';

COMMENT ON COLUMN public.keyed_reading.reading_id IS 'Of the one who keyed: what is sent twice is one reading.';

COMMENT ON COLUMN public.keyed_reading.flight_id IS 'The flight.';

COMMENT ON COLUMN public.keyed_reading.judge_id IS 'The seat, as the judge whose it is.';

COMMENT ON COLUMN public.keyed_reading.attempt IS 'Of the flight.';

COMMENT ON COLUMN public.keyed_reading.number IS 'Which reading of the sheet it is, from 1.';

COMMENT ON COLUMN public.keyed_reading.sequence IS 'Digest of the sequence that was keyed against.';

COMMENT ON COLUMN public.keyed_reading.grades IS 'One for each item, as in a record; empty where the paper says nothing.';

COMMENT ON COLUMN public.keyed_reading.remarks IS 'One for each item, mostly empty.';

COMMENT ON COLUMN public.keyed_reading.signed IS 'Whether the judge''s signature stands on the paper.';

COMMENT ON COLUMN public.keyed_reading.keyed_by IS 'The account.';

COMMENT ON COLUMN public.keyed_reading.keyed_at IS 'By the database''s clock.';

COMMENT ON COLUMN public.keyed_reading.used IS 'It became records, or was thrown away: it is held against no other one.';

CREATE TABLE public.line_record (
    contest_id uuid NOT NULL,
    record_id uuid NOT NULL,
    kind text NOT NULL,
    flight_id uuid NOT NULL,
    attempt smallint NOT NULL,
    judge_id uuid,
    by_id uuid,
    item smallint,
    grade text DEFAULT ''::text NOT NULL,
    remark text DEFAULT ''::text NOT NULL,
    sequence text DEFAULT ''::text NOT NULL,
    replaces uuid[] DEFAULT '{}'::uuid[] NOT NULL,
    adopts uuid[] DEFAULT '{}'::uuid[] NOT NULL,
    covers uuid[] DEFAULT '{}'::uuid[] NOT NULL,
    after uuid[] DEFAULT '{}'::uuid[] NOT NULL,
    digest text DEFAULT ''::text NOT NULL,
    ruling text DEFAULT ''::text NOT NULL,
    penalty_kind text DEFAULT ''::text NOT NULL,
    penalty_count smallint DEFAULT 0 NOT NULL,
    penalty_points double precision DEFAULT 0 NOT NULL,
    absent boolean,
    status text DEFAULT ''::text NOT NULL,
    wind text DEFAULT ''::text NOT NULL,
    reason text DEFAULT ''::text NOT NULL,
    entered_at text DEFAULT ''::text NOT NULL,
    author_role text NOT NULL,
    author_seat uuid,
    author_device text NOT NULL,
    author_withdrawn boolean NOT NULL,
    store uuid NOT NULL,
    seq bigint NOT NULL,
    body bytea NOT NULL,
    received_at timestamp with time zone DEFAULT now() NOT NULL,
    CONSTRAINT line_record_attempt_check CHECK ((attempt >= 1)),
    CONSTRAINT line_record_check CHECK (((judge_id IS NOT NULL) = (kind = ANY (ARRAY['grade'::text, 'sign'::text, 'reopen'::text, 'absent'::text])))),
    CONSTRAINT line_record_check1 CHECK (((item IS NOT NULL) = (kind = ANY (ARRAY['grade'::text, 'ruling'::text])))),
    CONSTRAINT line_record_check2 CHECK (((ruling <> ''::text) = (kind = 'ruling'::text))),
    CONSTRAINT line_record_check3 CHECK (((penalty_kind <> ''::text) = (kind = 'penalty'::text))),
    CONSTRAINT line_record_check4 CHECK (((status <> ''::text) = (kind = 'status'::text))),
    CONSTRAINT line_record_check5 CHECK (((absent IS NOT NULL) = (kind = 'absent'::text))),
    CONSTRAINT line_record_check6 CHECK (((digest <> ''::text) = (kind = 'sign'::text))),
    CONSTRAINT line_record_check7 CHECK (((sequence <> ''::text) OR (kind <> 'grade'::text))),
    CONSTRAINT line_record_item_check CHECK ((item >= 1)),
    CONSTRAINT line_record_kind_check CHECK ((kind = ANY (ARRAY['grade'::text, 'sign'::text, 'reopen'::text, 'absent'::text, 'ruling'::text, 'penalty'::text, 'status'::text, 'aside'::text]))),
    CONSTRAINT line_record_penalty_count_check CHECK ((penalty_count >= 0)),
    CONSTRAINT line_record_penalty_points_check CHECK ((penalty_points >= (0)::double precision)),
    CONSTRAINT line_record_seq_check CHECK ((seq >= 1)),
    CONSTRAINT line_record_wind_check CHECK ((wind = ANY (ARRAY[''::text, 'left'::text, 'right'::text])))
);

COMMENT ON TABLE public.line_record IS 'Everything done on the line, as its device wrote it; only ever added to. A record of a flight or a judge that is not here is kept too, so neither is a reference. A column holds what the kind uses; body holds all.';

COMMENT ON COLUMN public.line_record.contest_id IS 'The contest.';

COMMENT ON COLUMN public.line_record.record_id IS 'UUIDv7 made by the device.';

COMMENT ON COLUMN public.line_record.kind IS 'What the record does.';

COMMENT ON COLUMN public.line_record.flight_id IS 'The flight it speaks of.';

COMMENT ON COLUMN public.line_record.attempt IS 'The attempt it speaks of, from 1.';

COMMENT ON COLUMN public.line_record.judge_id IS 'The seat it speaks of, as the judge whose it is.';

COMMENT ON COLUMN public.line_record.by_id IS 'The person in the seat, where that was another.';

COMMENT ON COLUMN public.line_record.item IS 'The item it speaks of, from 1.';

COMMENT ON COLUMN public.line_record.grade IS '0.0 to 10.0, HZ, PZ, A, or empty, which takes a grade back; a ruling''s is the grade set.';

COMMENT ON COLUMN public.line_record.remark IS 'The judge''s words; may be empty.';

COMMENT ON COLUMN public.line_record.sequence IS 'Digest of the sequence as it was shown.';

COMMENT ON COLUMN public.line_record.replaces IS 'Records of the same cell that it takes the place of.';

COMMENT ON COLUMN public.line_record.adopts IS 'Records that an official takes over.';

COMMENT ON COLUMN public.line_record.covers IS 'What a signature stands for, a closing has seen, or is set aside.';

COMMENT ON COLUMN public.line_record.after IS 'The reopenings that a signature knows.';

COMMENT ON COLUMN public.line_record.digest IS 'Of the sheet that is signed.';

COMMENT ON COLUMN public.line_record.ruling IS 'The chief judge''s decision.';

COMMENT ON COLUMN public.line_record.penalty_kind IS 'Which penalty.';

COMMENT ON COLUMN public.line_record.penalty_count IS 'How often it occurred; 0 takes it back.';

COMMENT ON COLUMN public.line_record.penalty_points IS 'Points for each occurrence.';

COMMENT ON COLUMN public.line_record.absent IS 'Whether the seat is absent, or back.';

COMMENT ON COLUMN public.line_record.status IS 'What the flight is doing.';

COMMENT ON COLUMN public.line_record.wind IS 'The side that the wind blows to, seen from the line.';

COMMENT ON COLUMN public.line_record.reason IS 'Why an official did it.';

COMMENT ON COLUMN public.line_record.entered_at IS 'By the device''s clock, as written; shown, and decides nothing.';

COMMENT ON COLUMN public.line_record.author_role IS 'Role of who made it.';

COMMENT ON COLUMN public.line_record.author_seat IS 'The judge whose seat the author''s device was paired for.';

COMMENT ON COLUMN public.line_record.author_device IS 'The pairing or account that it came from, or import.';

COMMENT ON COLUMN public.line_record.author_withdrawn IS 'The device had been withdrawn when it came.';

COMMENT ON COLUMN public.line_record.store IS 'The id of the device''s own database.';

COMMENT ON COLUMN public.line_record.seq IS 'Counts the records of a store from 1; tells what is missing, orders nothing.';

COMMENT ON COLUMN public.line_record.body IS 'The record''s bytes as received, signature included.';

COMMENT ON COLUMN public.line_record.received_at IS 'When it was stored.';

CREATE TABLE public.link (
    hash bytea NOT NULL,
    purpose text NOT NULL,
    account_id uuid,
    made_at timestamp with time zone DEFAULT now() NOT NULL,
    expires_at timestamp with time zone NOT NULL,
    used_at timestamp with time zone,
    CONSTRAINT link_check CHECK (((purpose = 'first'::text) = (account_id IS NULL))),
    CONSTRAINT link_hash_check CHECK ((length(hash) = 32)),
    CONSTRAINT link_purpose_check CHECK ((purpose = ANY (ARRAY['first'::text, 'password'::text, 'sign-in'::text])))
);

COMMENT ON TABLE public.link IS 'Links that are good once. Server-wide: they are for accounts.';

COMMENT ON COLUMN public.link.hash IS 'SHA-256 of the secret in it.';

COMMENT ON COLUMN public.link.purpose IS 'What it is good for: to make the first account, to choose a new password, to sign in.';

COMMENT ON COLUMN public.link.account_id IS 'Whose it is.';

COMMENT ON COLUMN public.link.made_at IS 'When it was made.';

COMMENT ON COLUMN public.link.expires_at IS 'Until when it is good.';

COMMENT ON COLUMN public.link.used_at IS 'When it was used.';

CREATE TABLE public.number_table (
    contest_id uuid NOT NULL,
    body bytea NOT NULL,
    digest text NOT NULL,
    numbers integer NOT NULL,
    set_at timestamp with time zone DEFAULT now() NOT NULL,
    CONSTRAINT number_table_digest_check CHECK ((digest ~ '^[0-9a-f]{64}$'::text)),
    CONSTRAINT number_table_numbers_check CHECK ((numbers > 0))
);

COMMENT ON TABLE public.number_table IS 'The organiser''s own table of catalogue numbers and their K, where there is one.';

COMMENT ON COLUMN public.number_table.contest_id IS 'The contest.';

COMMENT ON COLUMN public.number_table.body IS 'CSV of two columns, number and K, as it was sent.';

COMMENT ON COLUMN public.number_table.digest IS 'SHA-256 of body.';

COMMENT ON COLUMN public.number_table.numbers IS 'How many numbers it has.';

COMMENT ON COLUMN public.number_table.set_at IS 'When it was sent.';

CREATE TABLE public.official (
    contest_id uuid NOT NULL,
    official_id uuid NOT NULL,
    code text NOT NULL,
    "position" integer NOT NULL,
    duty text NOT NULL,
    name text NOT NULL,
    affiliation text NOT NULL,
    revision bigint DEFAULT 1 NOT NULL,
    CONSTRAINT official_code_check CHECK ((code <> ''::text)),
    CONSTRAINT official_duty_check CHECK ((duty = ANY (ARRAY['judge'::text, 'chief'::text, 'assistant'::text, 'announcer'::text, 'office'::text, 'director'::text, 'jury'::text]))),
    CONSTRAINT official_revision_check CHECK ((revision >= 1))
);

COMMENT ON TABLE public.official IS 'The judges of a contest and the other people who run it.';

COMMENT ON COLUMN public.official.contest_id IS 'The contest.';

COMMENT ON COLUMN public.official.official_id IS 'UUIDv7.';

COMMENT ON COLUMN public.official.code IS 'The id in bundles.';

COMMENT ON COLUMN public.official."position" IS 'Order in lists and bundles.';

COMMENT ON COLUMN public.official.duty IS 'What the person does; only a judge can sit on a panel.';

COMMENT ON COLUMN public.official.name IS 'As on prints; may be empty.';

COMMENT ON COLUMN public.official.affiliation IS 'Club or country, to point out a judge who grades a pilot of the own; may be empty.';

COMMENT ON COLUMN public.official.revision IS 'Counts the changes of the row.';

CREATE TABLE public.pairing (
    contest_id uuid NOT NULL,
    pairing_id uuid NOT NULL,
    role text NOT NULL,
    judge_id uuid,
    duty text DEFAULT 'judge'::text NOT NULL,
    code_hash bytea NOT NULL,
    link_hash bytea NOT NULL,
    made_at timestamp with time zone DEFAULT now() NOT NULL,
    made_by text NOT NULL,
    expires_at timestamp with time zone NOT NULL,
    device_id uuid,
    CONSTRAINT pairing_check CHECK (((role <> 'judge'::text) OR (judge_id IS NOT NULL))),
    CONSTRAINT pairing_code_hash_check CHECK ((length(code_hash) = 32)),
    CONSTRAINT pairing_duty_check CHECK ((duty = 'judge'::text)),
    CONSTRAINT pairing_link_hash_check CHECK ((length(link_hash) = 32)),
    CONSTRAINT pairing_role_check CHECK ((role = ANY (ARRAY['judge'::text, 'assistant'::text, 'chief'::text, 'announcer'::text])))
);

COMMENT ON TABLE public.pairing IS 'Offers to become a device of the line, each taken once, by a code that is typed or by a link.';

COMMENT ON COLUMN public.pairing.contest_id IS 'The contest.';

COMMENT ON COLUMN public.pairing.pairing_id IS 'UUIDv7.';

COMMENT ON COLUMN public.pairing.role IS 'What the device is paired for.';

COMMENT ON COLUMN public.pairing.judge_id IS 'The judge whose seat it is paired for; an assistant may have one too.';

COMMENT ON COLUMN public.pairing.duty IS 'Always judge: nobody else has a seat.';

COMMENT ON COLUMN public.pairing.code_hash IS 'SHA-256 of the code.';

COMMENT ON COLUMN public.pairing.link_hash IS 'SHA-256 of the secret in the link.';

COMMENT ON COLUMN public.pairing.made_at IS 'When it was made.';

COMMENT ON COLUMN public.pairing.made_by IS 'The account that made it.';

COMMENT ON COLUMN public.pairing.expires_at IS 'Until when it is good.';

COMMENT ON COLUMN public.pairing.device_id IS 'The device that took it; its key alone may take it again.';

CREATE TABLE public.penalty_kind (
    contest_id uuid NOT NULL,
    kind text NOT NULL,
    "position" integer NOT NULL,
    points double precision NOT NULL,
    repeats boolean DEFAULT true NOT NULL,
    disqualifies boolean DEFAULT false NOT NULL,
    revision bigint DEFAULT 1 NOT NULL,
    penalty_kind_id uuid DEFAULT gen_random_uuid() NOT NULL,
    CONSTRAINT penalty_kind_kind_check CHECK ((kind <> ''::text)),
    CONSTRAINT penalty_kind_points_check CHECK (((points >= (0)::double precision) AND (points < 'Infinity'::double precision))),
    CONSTRAINT penalty_kind_revision_check CHECK ((revision >= 1))
);

COMMENT ON TABLE public.penalty_kind IS 'The penalties that the officials of a contest are offered; one given is a record of the line with points of its own.';

COMMENT ON COLUMN public.penalty_kind.contest_id IS 'The contest.';

COMMENT ON COLUMN public.penalty_kind.kind IS 'Its name, as on prints.';

COMMENT ON COLUMN public.penalty_kind."position" IS 'Order in lists.';

COMMENT ON COLUMN public.penalty_kind.points IS 'Points for each occurrence.';

COMMENT ON COLUMN public.penalty_kind.repeats IS 'It can occur more than once in a flight.';

COMMENT ON COLUMN public.penalty_kind.disqualifies IS 'It ends the flight without a score.';

COMMENT ON COLUMN public.penalty_kind.revision IS 'Counts the changes of the row.';

COMMENT ON COLUMN public.penalty_kind.penalty_kind_id IS 'Names the row while it is edited.';

CREATE TABLE public.pilot (
    contest_id uuid NOT NULL,
    pilot_id uuid NOT NULL,
    code text NOT NULL,
    "position" integer NOT NULL,
    name text NOT NULL,
    affiliation text NOT NULL,
    aircraft text NOT NULL,
    revision bigint DEFAULT 1 NOT NULL,
    note text DEFAULT ''::text NOT NULL,
    CONSTRAINT pilot_code_check CHECK ((code <> ''::text)),
    CONSTRAINT pilot_note_check CHECK ((char_length(note) <= 500)),
    CONSTRAINT pilot_revision_check CHECK ((revision >= 1))
);

COMMENT ON TABLE public.pilot IS 'The pilots of a contest.';

COMMENT ON COLUMN public.pilot.contest_id IS 'The contest.';

COMMENT ON COLUMN public.pilot.pilot_id IS 'UUIDv7.';

COMMENT ON COLUMN public.pilot.code IS 'The id in bundles.';

COMMENT ON COLUMN public.pilot."position" IS 'Order in lists and bundles.';

COMMENT ON COLUMN public.pilot.name IS 'As on prints; may be empty.';

COMMENT ON COLUMN public.pilot.affiliation IS 'Club or country; may be empty.';

COMMENT ON COLUMN public.pilot.aircraft IS 'What is flown; may be empty.';

COMMENT ON COLUMN public.pilot.revision IS 'Counts the changes of the row.';

COMMENT ON COLUMN public.pilot.note IS 'A line about the pilot, for the announcer.';

CREATE TABLE public.programme (
    contest_id uuid NOT NULL,
    programme_id uuid NOT NULL,
    category_id uuid NOT NULL,
    code text NOT NULL,
    "position" integer NOT NULL,
    name text NOT NULL,
    kind text NOT NULL,
    own_sequences boolean GENERATED ALWAYS AS ((kind = ANY (ARRAY['free'::text, 'freestyle'::text]))) STORED NOT NULL,
    cut integer NOT NULL,
    counts boolean NOT NULL,
    frozen_at timestamp with time zone,
    method text NOT NULL,
    "trim" integer NOT NULL,
    discard double precision NOT NULL,
    style boolean NOT NULL,
    seat_weights text NOT NULL,
    outlier double precision NOT NULL,
    lean double precision NOT NULL,
    group_min integer NOT NULL,
    hard_zero_majority text NOT NULL,
    perception_zero text NOT NULL,
    revision bigint DEFAULT 1 NOT NULL,
    abandoned boolean DEFAULT false NOT NULL,
    counts_reason text DEFAULT ''::text NOT NULL,
    CONSTRAINT programme_check CHECK ((NOT (abandoned AND counts))),
    CONSTRAINT programme_code_check CHECK ((code <> ''::text)),
    CONSTRAINT programme_cut_check CHECK ((cut >= 0)),
    CONSTRAINT programme_discard_check CHECK (((discard > (0)::double precision) AND (discard < 'Infinity'::double precision))),
    CONSTRAINT programme_group_min_check CHECK ((group_min >= 1)),
    CONSTRAINT programme_hard_zero_majority_check CHECK ((hard_zero_majority = ANY (ARRAY['more-than-half'::text, 'half-or-more'::text]))),
    CONSTRAINT programme_kind_check CHECK ((kind = ANY (ARRAY['known'::text, 'free'::text, 'unknown'::text, 'freestyle'::text]))),
    CONSTRAINT programme_lean_check CHECK (((lean > (0)::double precision) AND (lean < 'Infinity'::double precision))),
    CONSTRAINT programme_method_check CHECK ((method = ANY (ARRAY['mean'::text, 'trimmed-mean'::text, 'normalised'::text, 'consensus'::text]))),
    CONSTRAINT programme_outlier_check CHECK (((outlier > (0)::double precision) AND (outlier < 'Infinity'::double precision))),
    CONSTRAINT programme_perception_zero_check CHECK ((perception_zero = ANY (ARRAY['majority'::text, 'as-graded'::text]))),
    CONSTRAINT programme_revision_check CHECK ((revision >= 1)),
    CONSTRAINT programme_seat_weights_check CHECK ((seat_weights = ANY (ARRAY['measured'::text, 'equal'::text]))),
    CONSTRAINT programme_trim_check CHECK (("trim" >= 0))
);

COMMENT ON TABLE public.programme IS 'One round of a category.';

COMMENT ON COLUMN public.programme.contest_id IS 'The contest.';

COMMENT ON COLUMN public.programme.programme_id IS 'UUIDv7.';

COMMENT ON COLUMN public.programme.category_id IS 'The category.';

COMMENT ON COLUMN public.programme.code IS 'The id in bundles, of its own within the category.';

COMMENT ON COLUMN public.programme."position" IS 'Order flown.';

COMMENT ON COLUMN public.programme.name IS 'As on prints; may be empty.';

COMMENT ON COLUMN public.programme.kind IS 'In known and unknown all fly the same sequence, in free and freestyle each pilot the own.';

COMMENT ON COLUMN public.programme.own_sequences IS 'Follows from kind; sequences refer to it, so that a programme has those of its kind only.';

COMMENT ON COLUMN public.programme.cut IS 'How many go on after it; 0 for all.';

COMMENT ON COLUMN public.programme.counts IS 'False where it adds nothing to totals, ties and cuts.';

COMMENT ON COLUMN public.programme.frozen_at IS 'When its first flight was called: method and options then stand.';

COMMENT ON COLUMN public.programme.method IS 'How a panel''s grades become a score.';

COMMENT ON COLUMN public.programme."trim" IS 'trimmed-mean: grades left out at each end.';

COMMENT ON COLUMN public.programme.discard IS 'normalised: standard deviations from the flight''s mean.';

COMMENT ON COLUMN public.programme.style IS 'consensus: whether seats'' spreads are matched first.';

COMMENT ON COLUMN public.programme.seat_weights IS 'consensus: seats weigh as measured, or equally.';

COMMENT ON COLUMN public.programme.outlier IS 'consensus: standard deviations beyond which a grade has no trust.';

COMMENT ON COLUMN public.programme.lean IS 'consensus: standard deviations beyond which a seat leans for or against a pilot.';

COMMENT ON COLUMN public.programme.group_min IS 'consensus: rows that a group of a free programme has at least.';

COMMENT ON COLUMN public.programme.hard_zero_majority IS 'How many hard zeros confirm one without a ruling.';

COMMENT ON COLUMN public.programme.perception_zero IS 'Whether a perception zero needs a majority.';

COMMENT ON COLUMN public.programme.revision IS 'Counts the changes of the row and of its panel.';

COMMENT ON COLUMN public.programme.abandoned IS 'It was broken off: what is not flown will not be, and it does not count.';

COMMENT ON COLUMN public.programme.counts_reason IS 'Why the director decided that it does not count, or counts again; empty for as set up.';

CREATE TABLE public.protest (
    contest_id uuid NOT NULL,
    protest_id uuid NOT NULL,
    programme_id uuid NOT NULL,
    publication_id uuid NOT NULL,
    pilot_id uuid NOT NULL,
    text text NOT NULL,
    filed_by text NOT NULL,
    filed_at timestamp with time zone NOT NULL,
    CONSTRAINT protest_text_check CHECK ((text <> ''::text))
);

COMMENT ON TABLE public.protest IS 'Protests against published results; only ever added to.';

COMMENT ON COLUMN public.protest.contest_id IS 'The contest.';

COMMENT ON COLUMN public.protest.protest_id IS 'UUIDv7.';

COMMENT ON COLUMN public.protest.programme_id IS 'The programme whose results are protested.';

COMMENT ON COLUMN public.protest.publication_id IS 'The publication that stood when it was filed.';

COMMENT ON COLUMN public.protest.pilot_id IS 'Whose protest it is: a pilot who flies the programme.';

COMMENT ON COLUMN public.protest.text IS 'What is protested, in the pilot''s words.';

COMMENT ON COLUMN public.protest.filed_by IS 'The account that filed it.';

COMMENT ON COLUMN public.protest.filed_at IS 'By the database''s clock.';

CREATE TABLE public.protest_decision (
    contest_id uuid NOT NULL,
    protest_id uuid NOT NULL,
    upheld boolean NOT NULL,
    text text NOT NULL,
    flight_id uuid,
    decided_by text NOT NULL,
    decided_at timestamp with time zone NOT NULL,
    CONSTRAINT protest_decision_check CHECK ((upheld OR (flight_id IS NULL))),
    CONSTRAINT protest_decision_text_check CHECK ((text <> ''::text))
);

COMMENT ON TABLE public.protest_decision IS 'What the director decided about a protest; a protest without one is open. Only ever added to.';

COMMENT ON COLUMN public.protest_decision.contest_id IS 'The contest.';

COMMENT ON COLUMN public.protest_decision.protest_id IS 'The protest.';

COMMENT ON COLUMN public.protest_decision.upheld IS 'Whether the pilot was right.';

COMMENT ON COLUMN public.protest_decision.text IS 'Why, in the director''s words.';

COMMENT ON COLUMN public.protest_decision.flight_id IS 'The closed flight that it opened again, where it did.';

COMMENT ON COLUMN public.protest_decision.decided_by IS 'The account that decided.';

COMMENT ON COLUMN public.protest_decision.decided_at IS 'By the database''s clock.';

CREATE TABLE public.publication (
    contest_id uuid NOT NULL,
    publication_id uuid NOT NULL,
    number bigint NOT NULL,
    category_id uuid NOT NULL,
    programme_id uuid,
    state text NOT NULL,
    published_at timestamp with time zone NOT NULL,
    protest_until timestamp with time zone,
    reason text NOT NULL,
    statement text NOT NULL,
    signature bytea NOT NULL,
    key_id text NOT NULL,
    bundle bytea NOT NULL,
    results bytea NOT NULL,
    public_key bytea NOT NULL,
    CONSTRAINT publication_number_check CHECK ((number >= 1)),
    CONSTRAINT publication_public_key_check CHECK ((length(public_key) = 32)),
    CONSTRAINT publication_signature_check CHECK ((length(signature) = 64)),
    CONSTRAINT publication_state_check CHECK ((state = ANY (ARRAY['provisional'::text, 'official'::text])))
);

COMMENT ON TABLE public.publication IS 'Published results; numbered, signed, only ever added to.';

COMMENT ON COLUMN public.publication.contest_id IS 'The contest.';

COMMENT ON COLUMN public.publication.publication_id IS 'UUIDv7.';

COMMENT ON COLUMN public.publication.number IS 'Counts the publications of the contest from 1.';

COMMENT ON COLUMN public.publication.category_id IS 'The category whose results it holds.';

COMMENT ON COLUMN public.publication.programme_id IS 'The programme whose results it holds; none for the standing over all of the category''s.';

COMMENT ON COLUMN public.publication.state IS 'Provisional while it can be protested, then official.';

COMMENT ON COLUMN public.publication.published_at IS 'By the database''s clock.';

COMMENT ON COLUMN public.publication.protest_until IS 'The end of the time for protests, where there is one.';

COMMENT ON COLUMN public.publication.reason IS 'The director''s, where one was needed; may be empty.';

COMMENT ON COLUMN public.publication.statement IS 'The text that is signed.';

COMMENT ON COLUMN public.publication.signature IS 'Ed25519 over statement.';

COMMENT ON COLUMN public.publication.key_id IS 'Which key signed.';

COMMENT ON COLUMN public.publication.bundle IS 'What was scored; served as these bytes.';

COMMENT ON COLUMN public.publication.results IS 'What came out; served as these bytes.';

COMMENT ON COLUMN public.publication.public_key IS 'The Ed25519 key that signature is checked with; key_id is its fingerprint.';

CREATE TABLE public.running_order (
    contest_id uuid NOT NULL,
    programme_id uuid NOT NULL,
    revision bigint NOT NULL,
    draws integer DEFAULT 0 NOT NULL,
    plan jsonb,
    moves integer DEFAULT 0 NOT NULL,
    changed_at timestamp with time zone DEFAULT clock_timestamp() NOT NULL,
    changed_by text NOT NULL,
    CONSTRAINT running_order_check CHECK (((draws > 0) OR (plan IS NULL))),
    CONSTRAINT running_order_draws_check CHECK ((draws >= 0)),
    CONSTRAINT running_order_moves_check CHECK ((moves >= 0)),
    CONSTRAINT running_order_revision_check CHECK ((revision >= 1))
);

COMMENT ON TABLE public.running_order IS 'How a programme''s running order came to be; the order itself are the places of its flights. None where it came with a bundle.';

COMMENT ON COLUMN public.running_order.contest_id IS 'The contest.';

COMMENT ON COLUMN public.running_order.programme_id IS 'The programme.';

COMMENT ON COLUMN public.running_order.revision IS 'Counts the changes, so that nobody overwrites what they have not seen.';

COMMENT ON COLUMN public.running_order.draws IS 'How many times it was drawn: a lot that is drawn until it pleases is none.';

COMMENT ON COLUMN public.running_order.plan IS 'How it was drawn last, with the seed of the lot; null where it never was.';

COMMENT ON COLUMN public.running_order.moves IS 'How many times it was changed by hand since it was drawn.';

COMMENT ON COLUMN public.running_order.changed_at IS 'By the database''s clock.';

COMMENT ON COLUMN public.running_order.changed_by IS 'The account.';

CREATE TABLE public.season (
    season_id uuid NOT NULL,
    name text NOT NULL,
    rules jsonb NOT NULL,
    revision bigint DEFAULT 1 NOT NULL,
    made_at timestamp with time zone DEFAULT now() NOT NULL,
    made_by text NOT NULL,
    CONSTRAINT season_name_check CHECK ((name <> ''::text)),
    CONSTRAINT season_revision_check CHECK ((revision >= 1))
);

COMMENT ON TABLE public.season IS 'Standings over several contests. Server-wide: it belongs to no one of them.';

COMMENT ON COLUMN public.season.season_id IS 'UUIDv7.';

COMMENT ON COLUMN public.season.name IS 'As on its page.';

COMMENT ON COLUMN public.season.rules IS 'How results become a standing.';

COMMENT ON COLUMN public.season.revision IS 'Counts its changes, so that nobody overwrites what they have not seen.';

COMMENT ON COLUMN public.season.made_at IS 'When it was made.';

COMMENT ON COLUMN public.season.made_by IS 'The account that made it.';

CREATE TABLE public.season_part (
    contest_id uuid NOT NULL,
    season_id uuid NOT NULL,
    category_id uuid NOT NULL,
    class text NOT NULL,
    "position" integer NOT NULL,
    CONSTRAINT season_part_class_check CHECK ((class <> ''::text))
);

COMMENT ON TABLE public.season_part IS 'The categories of contests whose standings make a season''s.';

COMMENT ON COLUMN public.season_part.contest_id IS 'The contest.';

COMMENT ON COLUMN public.season_part.season_id IS 'The season.';

COMMENT ON COLUMN public.season_part.category_id IS 'The category.';

COMMENT ON COLUMN public.season_part.class IS 'Which of the season''s standings it adds to, by name.';

COMMENT ON COLUMN public.season_part."position" IS 'Order in which they were flown.';

CREATE TABLE public.season_person (
    contest_id uuid NOT NULL,
    season_id uuid NOT NULL,
    pilot text NOT NULL,
    person_id uuid NOT NULL,
    CONSTRAINT season_person_pilot_check CHECK ((pilot <> ''::text))
);

COMMENT ON TABLE public.season_person IS 'Who is the same person in several contests, as an office confirmed it. Whoever is not here is a person alone.';

COMMENT ON COLUMN public.season_person.contest_id IS 'The contest.';

COMMENT ON COLUMN public.season_person.season_id IS 'The season.';

COMMENT ON COLUMN public.season_person.pilot IS 'The pilot''s id in the contest''s publications.';

COMMENT ON COLUMN public.season_person.person_id IS 'The same for one person.';

CREATE TABLE public.seat (
    contest_id uuid NOT NULL,
    programme_id uuid NOT NULL,
    number integer NOT NULL,
    judge_id uuid NOT NULL,
    duty text DEFAULT 'judge'::text NOT NULL,
    CONSTRAINT seat_duty_check CHECK ((duty = 'judge'::text)),
    CONSTRAINT seat_number_check CHECK ((number >= 1))
);

COMMENT ON TABLE public.seat IS 'The panel of a programme: a judge''s chair on it.';

COMMENT ON COLUMN public.seat.contest_id IS 'The contest.';

COMMENT ON COLUMN public.seat.programme_id IS 'The programme.';

COMMENT ON COLUMN public.seat.number IS 'Counts from 1.';

COMMENT ON COLUMN public.seat.judge_id IS 'The judge whose chair it is.';

COMMENT ON COLUMN public.seat.duty IS 'Always judge: nobody else has a seat.';

CREATE TABLE public.sequence (
    contest_id uuid NOT NULL,
    sequence_id uuid NOT NULL,
    programme_id uuid NOT NULL,
    category_id uuid NOT NULL,
    own_sequences boolean NOT NULL,
    pilot_id uuid,
    digest text NOT NULL,
    entry json,
    released_at timestamp with time zone,
    revision integer DEFAULT 1 NOT NULL,
    registered_at timestamp with time zone DEFAULT now() NOT NULL,
    signed_off_at timestamp with time zone,
    signed_off_by text,
    signed_off_reason text,
    CONSTRAINT sequence_check CHECK ((own_sequences = (pilot_id IS NOT NULL))),
    CONSTRAINT sequence_check1 CHECK (((signed_off_at IS NULL) = (signed_off_by IS NULL))),
    CONSTRAINT sequence_check2 CHECK (((signed_off_at IS NULL) = (signed_off_reason IS NULL))),
    CONSTRAINT sequence_digest_check CHECK ((digest ~ '^[0-9a-f]{64}$'::text)),
    CONSTRAINT sequence_revision_check CHECK ((revision >= 1))
);

COMMENT ON TABLE public.sequence IS 'What is flown: one of a known or unknown programme, one of each pilot of a free or freestyle. It says nothing about whether it can be flown safely.';

COMMENT ON COLUMN public.sequence.contest_id IS 'The contest.';

COMMENT ON COLUMN public.sequence.sequence_id IS 'UUIDv7.';

COMMENT ON COLUMN public.sequence.programme_id IS 'The programme.';

COMMENT ON COLUMN public.sequence.category_id IS 'The programme''s category, in which the pilot must be entered.';

COMMENT ON COLUMN public.sequence.own_sequences IS 'The programme''s; true exactly where there is a pilot.';

COMMENT ON COLUMN public.sequence.pilot_id IS 'Whose own it is, where the programme has such.';

COMMENT ON COLUMN public.sequence.digest IS 'What it asks for; a grade given for another one does not count.';

COMMENT ON COLUMN public.sequence.entry IS 'How the first figure begins, as written.';

COMMENT ON COLUMN public.sequence.released_at IS 'When it was released; before, only the office sees it.';

COMMENT ON COLUMN public.sequence.revision IS 'Counts what was registered in this place; the digest stays where only K, names or words change.';

COMMENT ON COLUMN public.sequence.registered_at IS 'When this revision was registered.';

COMMENT ON COLUMN public.sequence.signed_off_at IS 'When the office accepted this revision, where it has.';

COMMENT ON COLUMN public.sequence.signed_off_by IS 'Who accepted it.';

COMMENT ON COLUMN public.sequence.signed_off_reason IS 'Why, which must be said where an error stands; else it may be empty.';

CREATE TABLE public.sequence_item (
    contest_id uuid NOT NULL,
    sequence_id uuid NOT NULL,
    number integer NOT NULL,
    kind text NOT NULL,
    k integer NOT NULL,
    elements text[],
    class text NOT NULL,
    name text NOT NULL,
    element_k json,
    words json,
    entry json,
    moves json,
    CONSTRAINT sequence_item_k_check CHECK ((k > 0)),
    CONSTRAINT sequence_item_kind_check CHECK ((kind = ANY (ARRAY['figure'::text, 'overall'::text]))),
    CONSTRAINT sequence_item_number_check CHECK (((number >= 1) AND (number <= 40)))
);

COMMENT ON TABLE public.sequence_item IS 'A line of the score sheet.';

COMMENT ON COLUMN public.sequence_item.contest_id IS 'The contest.';

COMMENT ON COLUMN public.sequence_item.sequence_id IS 'The sequence.';

COMMENT ON COLUMN public.sequence_item.number IS 'Counts from 1.';

COMMENT ON COLUMN public.sequence_item.kind IS 'A figure, or a mark for the whole flight.';

COMMENT ON COLUMN public.sequence_item.k IS 'Difficulty coefficient in tenths.';

COMMENT ON COLUMN public.sequence_item.elements IS 'Catalogue numbers as typed, where given.';

COMMENT ON COLUMN public.sequence_item.class IS 'Empty where it is the one that follows from the elements.';

COMMENT ON COLUMN public.sequence_item.name IS 'As on prints; may be empty.';

COMMENT ON COLUMN public.sequence_item.element_k IS 'K of each element, as written.';

COMMENT ON COLUMN public.sequence_item.words IS 'What the caller says instead of our own words, as written.';

COMMENT ON COLUMN public.sequence_item.entry IS 'How the figure begins, as written.';

COMMENT ON COLUMN public.sequence_item.moves IS 'The moves of the figure, as written.';

CREATE TABLE public.server (
    single boolean DEFAULT true NOT NULL,
    epoch uuid NOT NULL,
    CONSTRAINT server_single_check CHECK (single)
);

COMMENT ON TABLE public.server IS 'What holds for this database as a whole; one row.';

COMMENT ON COLUMN public.server.single IS 'Always true, so that there is one row.';

COMMENT ON COLUMN public.server.epoch IS 'New at each restore: devices then send again what is missing, readers read everything again.';

CREATE TABLE public.session (
    session_id uuid NOT NULL,
    hash bytea NOT NULL,
    account_id uuid,
    contest_id uuid,
    device_id uuid,
    created_at timestamp with time zone DEFAULT now() NOT NULL,
    last_seen_at timestamp with time zone DEFAULT now() NOT NULL,
    confirmed_at timestamp with time zone,
    user_agent text NOT NULL,
    expires_at timestamp with time zone NOT NULL,
    withdrawn_at timestamp with time zone,
    CONSTRAINT session_check CHECK (((account_id IS NULL) <> (device_id IS NULL))),
    CONSTRAINT session_check1 CHECK (((contest_id IS NULL) = (device_id IS NULL))),
    CONSTRAINT session_hash_check CHECK ((length(hash) = 32))
);

COMMENT ON TABLE public.session IS 'Who is signed in where: an account or a paired device. Server-wide: a request shows its session before it is known of which contest it speaks.';

COMMENT ON COLUMN public.session.session_id IS 'UUIDv7.';

COMMENT ON COLUMN public.session.hash IS 'SHA-256 of the 256 random bits in the cookie.';

COMMENT ON COLUMN public.session.account_id IS 'The account, where it is one''s.';

COMMENT ON COLUMN public.session.contest_id IS 'The contest of the device.';

COMMENT ON COLUMN public.session.device_id IS 'The device, where it is one''s.';

COMMENT ON COLUMN public.session.created_at IS 'When it began.';

COMMENT ON COLUMN public.session.last_seen_at IS 'When it was last used, to the minute.';

COMMENT ON COLUMN public.session.confirmed_at IS 'When the password was last given in it.';

COMMENT ON COLUMN public.session.user_agent IS 'The browser, as it names itself.';

COMMENT ON COLUMN public.session.expires_at IS 'When it ends by itself.';

COMMENT ON COLUMN public.session.withdrawn_at IS 'When it was ended before.';

ALTER TABLE ONLY public.account
    ADD CONSTRAINT account_pkey PRIMARY KEY (account_id);

ALTER TABLE ONLY public.analysis_opening
    ADD CONSTRAINT analysis_opening_pkey PRIMARY KEY (contest_id, programme_id);

ALTER TABLE ONLY public.category
    ADD CONSTRAINT category_code_key UNIQUE (contest_id, code) DEFERRABLE INITIALLY DEFERRED;

ALTER TABLE ONLY public.category
    ADD CONSTRAINT category_pkey PRIMARY KEY (contest_id, category_id);

ALTER TABLE ONLY public.contest_head
    ADD CONSTRAINT contest_head_pkey PRIMARY KEY (contest_id);

ALTER TABLE ONLY public.contest
    ADD CONSTRAINT contest_pkey PRIMARY KEY (contest_id);

ALTER TABLE ONLY public.contest_role
    ADD CONSTRAINT contest_role_pkey PRIMARY KEY (contest_id, account_id, role);

ALTER TABLE ONLY public.device
    ADD CONSTRAINT device_contest_id_public_key_key UNIQUE (contest_id, public_key);

ALTER TABLE ONLY public.device
    ADD CONSTRAINT device_pkey PRIMARY KEY (contest_id, device_id);

ALTER TABLE ONLY public.entry
    ADD CONSTRAINT entry_contest_id_entry_id_key UNIQUE (contest_id, entry_id);

ALTER TABLE ONLY public.entry
    ADD CONSTRAINT entry_pkey PRIMARY KEY (contest_id, category_id, pilot_id);

ALTER TABLE ONLY public.flight
    ADD CONSTRAINT flight_contest_id_programme_id_number_key UNIQUE (contest_id, programme_id, number);

ALTER TABLE ONLY public.flight
    ADD CONSTRAINT flight_contest_id_programme_id_pilot_id_key UNIQUE (contest_id, programme_id, pilot_id);

ALTER TABLE ONLY public.flight
    ADD CONSTRAINT flight_contest_id_programme_id_position_key UNIQUE (contest_id, programme_id, "position") DEFERRABLE INITIALLY DEFERRED;

ALTER TABLE ONLY public.flight
    ADD CONSTRAINT flight_pkey PRIMARY KEY (contest_id, flight_id);

ALTER TABLE ONLY public.invitation
    ADD CONSTRAINT invitation_pkey PRIMARY KEY (contest_id, invitation_id);

ALTER TABLE ONLY public.journal
    ADD CONSTRAINT journal_pkey PRIMARY KEY (contest_id, number);

ALTER TABLE ONLY public.keyed_reading
    ADD CONSTRAINT keyed_reading_contest_id_flight_id_judge_id_number_key UNIQUE (contest_id, flight_id, judge_id, number);

ALTER TABLE ONLY public.keyed_reading
    ADD CONSTRAINT keyed_reading_pkey PRIMARY KEY (contest_id, reading_id);

ALTER TABLE ONLY public.line_record
    ADD CONSTRAINT line_record_pkey PRIMARY KEY (contest_id, record_id);

ALTER TABLE ONLY public.link
    ADD CONSTRAINT link_pkey PRIMARY KEY (hash);

ALTER TABLE ONLY public.number_table
    ADD CONSTRAINT number_table_pkey PRIMARY KEY (contest_id);

ALTER TABLE ONLY public.official
    ADD CONSTRAINT official_code_key UNIQUE (contest_id, code) DEFERRABLE INITIALLY DEFERRED;

ALTER TABLE ONLY public.official
    ADD CONSTRAINT official_contest_id_official_id_duty_key UNIQUE (contest_id, official_id, duty);

ALTER TABLE ONLY public.official
    ADD CONSTRAINT official_pkey PRIMARY KEY (contest_id, official_id);

ALTER TABLE ONLY public.pairing
    ADD CONSTRAINT pairing_pkey PRIMARY KEY (contest_id, pairing_id);

ALTER TABLE ONLY public.penalty_kind
    ADD CONSTRAINT penalty_kind_contest_id_penalty_kind_id_key UNIQUE (contest_id, penalty_kind_id);

ALTER TABLE ONLY public.penalty_kind
    ADD CONSTRAINT penalty_kind_pkey PRIMARY KEY (contest_id, kind);

ALTER TABLE ONLY public.pilot
    ADD CONSTRAINT pilot_code_key UNIQUE (contest_id, code) DEFERRABLE INITIALLY DEFERRED;

ALTER TABLE ONLY public.pilot
    ADD CONSTRAINT pilot_pkey PRIMARY KEY (contest_id, pilot_id);

ALTER TABLE ONLY public.programme
    ADD CONSTRAINT programme_code_key UNIQUE (contest_id, category_id, code) DEFERRABLE INITIALLY DEFERRED;

ALTER TABLE ONLY public.programme
    ADD CONSTRAINT programme_contest_id_category_id_position_key UNIQUE (contest_id, category_id, "position") DEFERRABLE INITIALLY DEFERRED;

ALTER TABLE ONLY public.programme
    ADD CONSTRAINT programme_contest_id_programme_id_category_id_own_sequences_key UNIQUE (contest_id, programme_id, category_id, own_sequences);

ALTER TABLE ONLY public.programme
    ADD CONSTRAINT programme_pkey PRIMARY KEY (contest_id, programme_id);

ALTER TABLE ONLY public.protest_decision
    ADD CONSTRAINT protest_decision_pkey PRIMARY KEY (contest_id, protest_id);

ALTER TABLE ONLY public.protest
    ADD CONSTRAINT protest_pkey PRIMARY KEY (contest_id, protest_id);

ALTER TABLE ONLY public.publication
    ADD CONSTRAINT publication_contest_id_number_key UNIQUE (contest_id, number);

ALTER TABLE ONLY public.publication
    ADD CONSTRAINT publication_pkey PRIMARY KEY (contest_id, publication_id);

ALTER TABLE ONLY public.running_order
    ADD CONSTRAINT running_order_pkey PRIMARY KEY (contest_id, programme_id);

ALTER TABLE ONLY public.season_part
    ADD CONSTRAINT season_part_pkey PRIMARY KEY (contest_id, season_id, category_id);

ALTER TABLE ONLY public.season_person
    ADD CONSTRAINT season_person_contest_id_season_id_person_id_key UNIQUE (contest_id, season_id, person_id);

ALTER TABLE ONLY public.season_person
    ADD CONSTRAINT season_person_pkey PRIMARY KEY (contest_id, season_id, pilot);

ALTER TABLE ONLY public.season
    ADD CONSTRAINT season_pkey PRIMARY KEY (season_id);

ALTER TABLE ONLY public.seat
    ADD CONSTRAINT seat_contest_id_programme_id_judge_id_key UNIQUE (contest_id, programme_id, judge_id) DEFERRABLE INITIALLY DEFERRED;

ALTER TABLE ONLY public.seat
    ADD CONSTRAINT seat_pkey PRIMARY KEY (contest_id, programme_id, number);

ALTER TABLE ONLY public.sequence
    ADD CONSTRAINT sequence_contest_id_programme_id_pilot_id_key UNIQUE NULLS NOT DISTINCT (contest_id, programme_id, pilot_id);

ALTER TABLE ONLY public.sequence_item
    ADD CONSTRAINT sequence_item_pkey PRIMARY KEY (contest_id, sequence_id, number);

ALTER TABLE ONLY public.sequence
    ADD CONSTRAINT sequence_pkey PRIMARY KEY (contest_id, sequence_id);

ALTER TABLE ONLY public.server
    ADD CONSTRAINT server_pkey PRIMARY KEY (single);

ALTER TABLE ONLY public.session
    ADD CONSTRAINT session_pkey PRIMARY KEY (session_id);

CREATE UNIQUE INDEX account_by_email ON public.account USING btree (lower(email));

CREATE UNIQUE INDEX category_by_id ON public.category USING btree (category_id);

CREATE INDEX contest_role_by_account ON public.contest_role USING btree (account_id);

CREATE UNIQUE INDEX device_by_id ON public.device USING btree (device_id);

CREATE UNIQUE INDEX flight_by_id ON public.flight USING btree (flight_id);

CREATE UNIQUE INDEX invitation_by_hash ON public.invitation USING btree (hash);

CREATE INDEX line_record_by_flight ON public.line_record USING btree (contest_id, flight_id, kind);

CREATE INDEX line_record_by_store ON public.line_record USING btree (contest_id, store, seq);

CREATE INDEX line_record_of_others ON public.line_record USING btree (contest_id) WHERE ((adopts <> '{}'::uuid[]) OR (kind = 'aside'::text));

CREATE UNIQUE INDEX pairing_by_code ON public.pairing USING btree (code_hash);

CREATE UNIQUE INDEX pairing_by_link ON public.pairing USING btree (link_hash);

CREATE UNIQUE INDEX programme_by_id ON public.programme USING btree (programme_id);

CREATE INDEX protest_by_id ON public.protest USING btree (protest_id);

CREATE INDEX protest_by_programme ON public.protest USING btree (contest_id, programme_id);

CREATE UNIQUE INDEX publication_by_id ON public.publication USING btree (publication_id);

CREATE INDEX publication_by_scope ON public.publication USING btree (contest_id, category_id, programme_id, number);

CREATE INDEX season_part_by_season ON public.season_part USING btree (season_id, "position");

CREATE INDEX session_by_account ON public.session USING btree (account_id);

CREATE INDEX session_by_device ON public.session USING btree (contest_id, device_id);

CREATE UNIQUE INDEX session_by_hash ON public.session USING btree (hash);

CREATE TRIGGER kept BEFORE DELETE OR UPDATE OR TRUNCATE ON public.journal FOR EACH STATEMENT EXECUTE FUNCTION public.refuse_change();

ALTER TABLE public.journal ENABLE ALWAYS TRIGGER kept;

CREATE TRIGGER kept BEFORE DELETE OR UPDATE OR TRUNCATE ON public.line_record FOR EACH STATEMENT EXECUTE FUNCTION public.refuse_change();

ALTER TABLE public.line_record ENABLE ALWAYS TRIGGER kept;

CREATE TRIGGER kept BEFORE DELETE OR UPDATE OR TRUNCATE ON public.protest FOR EACH STATEMENT EXECUTE FUNCTION public.refuse_change();

ALTER TABLE public.protest ENABLE ALWAYS TRIGGER kept;

CREATE TRIGGER kept BEFORE DELETE OR UPDATE OR TRUNCATE ON public.protest_decision FOR EACH STATEMENT EXECUTE FUNCTION public.refuse_change();

ALTER TABLE public.protest_decision ENABLE ALWAYS TRIGGER kept;

CREATE TRIGGER kept BEFORE DELETE OR UPDATE OR TRUNCATE ON public.publication FOR EACH STATEMENT EXECUTE FUNCTION public.refuse_change();

ALTER TABLE public.publication ENABLE ALWAYS TRIGGER kept;

ALTER TABLE ONLY public.analysis_opening
    ADD CONSTRAINT analysis_opening_contest_id_programme_id_fkey FOREIGN KEY (contest_id, programme_id) REFERENCES public.programme(contest_id, programme_id);

ALTER TABLE ONLY public.category
    ADD CONSTRAINT category_contest_id_fkey FOREIGN KEY (contest_id) REFERENCES public.contest(contest_id);

ALTER TABLE ONLY public.contest_head
    ADD CONSTRAINT contest_head_contest_id_fkey FOREIGN KEY (contest_id) REFERENCES public.contest(contest_id);

ALTER TABLE ONLY public.contest_role
    ADD CONSTRAINT contest_role_account_id_fkey FOREIGN KEY (account_id) REFERENCES public.account(account_id);

ALTER TABLE ONLY public.contest_role
    ADD CONSTRAINT contest_role_contest_id_fkey FOREIGN KEY (contest_id) REFERENCES public.contest(contest_id);

ALTER TABLE ONLY public.contest_role
    ADD CONSTRAINT contest_role_contest_id_judge_id_fkey FOREIGN KEY (contest_id, judge_id) REFERENCES public.official(contest_id, official_id);

ALTER TABLE ONLY public.contest_role
    ADD CONSTRAINT contest_role_contest_id_pilot_id_fkey FOREIGN KEY (contest_id, pilot_id) REFERENCES public.pilot(contest_id, pilot_id);

ALTER TABLE ONLY public.device
    ADD CONSTRAINT device_contest_id_fkey FOREIGN KEY (contest_id) REFERENCES public.contest(contest_id);

ALTER TABLE ONLY public.device
    ADD CONSTRAINT device_contest_id_judge_id_duty_fkey FOREIGN KEY (contest_id, judge_id, duty) REFERENCES public.official(contest_id, official_id, duty);

ALTER TABLE ONLY public.entry
    ADD CONSTRAINT entry_contest_id_category_id_fkey FOREIGN KEY (contest_id, category_id) REFERENCES public.category(contest_id, category_id);

ALTER TABLE ONLY public.entry
    ADD CONSTRAINT entry_contest_id_pilot_id_fkey FOREIGN KEY (contest_id, pilot_id) REFERENCES public.pilot(contest_id, pilot_id);

ALTER TABLE ONLY public.flight
    ADD CONSTRAINT flight_contest_id_category_id_pilot_id_fkey FOREIGN KEY (contest_id, category_id, pilot_id) REFERENCES public.entry(contest_id, category_id, pilot_id);

ALTER TABLE ONLY public.flight
    ADD CONSTRAINT flight_contest_id_programme_id_category_id_own_sequences_fkey FOREIGN KEY (contest_id, programme_id, category_id, own_sequences) REFERENCES public.programme(contest_id, programme_id, category_id, own_sequences);

ALTER TABLE ONLY public.invitation
    ADD CONSTRAINT invitation_accepted_by_fkey FOREIGN KEY (accepted_by) REFERENCES public.account(account_id);

ALTER TABLE ONLY public.invitation
    ADD CONSTRAINT invitation_contest_id_fkey FOREIGN KEY (contest_id) REFERENCES public.contest(contest_id);

ALTER TABLE ONLY public.invitation
    ADD CONSTRAINT invitation_contest_id_judge_id_fkey FOREIGN KEY (contest_id, judge_id) REFERENCES public.official(contest_id, official_id);

ALTER TABLE ONLY public.invitation
    ADD CONSTRAINT invitation_contest_id_pilot_id_fkey FOREIGN KEY (contest_id, pilot_id) REFERENCES public.pilot(contest_id, pilot_id);

ALTER TABLE ONLY public.journal
    ADD CONSTRAINT journal_contest_id_fkey FOREIGN KEY (contest_id) REFERENCES public.contest(contest_id);

ALTER TABLE ONLY public.keyed_reading
    ADD CONSTRAINT keyed_reading_contest_id_flight_id_fkey FOREIGN KEY (contest_id, flight_id) REFERENCES public.flight(contest_id, flight_id);

ALTER TABLE ONLY public.line_record
    ADD CONSTRAINT line_record_contest_id_fkey FOREIGN KEY (contest_id) REFERENCES public.contest(contest_id);

ALTER TABLE ONLY public.link
    ADD CONSTRAINT link_account_id_fkey FOREIGN KEY (account_id) REFERENCES public.account(account_id);

ALTER TABLE ONLY public.number_table
    ADD CONSTRAINT number_table_contest_id_fkey FOREIGN KEY (contest_id) REFERENCES public.contest(contest_id);

ALTER TABLE ONLY public.official
    ADD CONSTRAINT official_contest_id_fkey FOREIGN KEY (contest_id) REFERENCES public.contest(contest_id);

ALTER TABLE ONLY public.pairing
    ADD CONSTRAINT pairing_contest_id_device_id_fkey FOREIGN KEY (contest_id, device_id) REFERENCES public.device(contest_id, device_id);

ALTER TABLE ONLY public.pairing
    ADD CONSTRAINT pairing_contest_id_fkey FOREIGN KEY (contest_id) REFERENCES public.contest(contest_id);

ALTER TABLE ONLY public.pairing
    ADD CONSTRAINT pairing_contest_id_judge_id_duty_fkey FOREIGN KEY (contest_id, judge_id, duty) REFERENCES public.official(contest_id, official_id, duty);

ALTER TABLE ONLY public.penalty_kind
    ADD CONSTRAINT penalty_kind_contest_id_fkey FOREIGN KEY (contest_id) REFERENCES public.contest(contest_id);

ALTER TABLE ONLY public.pilot
    ADD CONSTRAINT pilot_contest_id_fkey FOREIGN KEY (contest_id) REFERENCES public.contest(contest_id);

ALTER TABLE ONLY public.programme
    ADD CONSTRAINT programme_contest_id_category_id_fkey FOREIGN KEY (contest_id, category_id) REFERENCES public.category(contest_id, category_id);

ALTER TABLE ONLY public.protest
    ADD CONSTRAINT protest_contest_id_programme_id_fkey FOREIGN KEY (contest_id, programme_id) REFERENCES public.programme(contest_id, programme_id);

ALTER TABLE ONLY public.protest
    ADD CONSTRAINT protest_contest_id_programme_id_pilot_id_fkey FOREIGN KEY (contest_id, programme_id, pilot_id) REFERENCES public.flight(contest_id, programme_id, pilot_id);

ALTER TABLE ONLY public.protest
    ADD CONSTRAINT protest_contest_id_publication_id_fkey FOREIGN KEY (contest_id, publication_id) REFERENCES public.publication(contest_id, publication_id);

ALTER TABLE ONLY public.protest_decision
    ADD CONSTRAINT protest_decision_contest_id_flight_id_fkey FOREIGN KEY (contest_id, flight_id) REFERENCES public.flight(contest_id, flight_id);

ALTER TABLE ONLY public.protest_decision
    ADD CONSTRAINT protest_decision_contest_id_protest_id_fkey FOREIGN KEY (contest_id, protest_id) REFERENCES public.protest(contest_id, protest_id);

ALTER TABLE ONLY public.publication
    ADD CONSTRAINT publication_contest_id_category_id_fkey FOREIGN KEY (contest_id, category_id) REFERENCES public.category(contest_id, category_id);

ALTER TABLE ONLY public.publication
    ADD CONSTRAINT publication_contest_id_fkey FOREIGN KEY (contest_id) REFERENCES public.contest(contest_id);

ALTER TABLE ONLY public.publication
    ADD CONSTRAINT publication_contest_id_programme_id_fkey FOREIGN KEY (contest_id, programme_id) REFERENCES public.programme(contest_id, programme_id);

ALTER TABLE ONLY public.running_order
    ADD CONSTRAINT running_order_contest_id_programme_id_fkey FOREIGN KEY (contest_id, programme_id) REFERENCES public.programme(contest_id, programme_id) ON DELETE CASCADE;

ALTER TABLE ONLY public.season_part
    ADD CONSTRAINT season_part_contest_id_category_id_fkey FOREIGN KEY (contest_id, category_id) REFERENCES public.category(contest_id, category_id) ON DELETE CASCADE;

ALTER TABLE ONLY public.season_part
    ADD CONSTRAINT season_part_season_id_fkey FOREIGN KEY (season_id) REFERENCES public.season(season_id);

ALTER TABLE ONLY public.season_person
    ADD CONSTRAINT season_person_contest_id_fkey FOREIGN KEY (contest_id) REFERENCES public.contest(contest_id);

ALTER TABLE ONLY public.season_person
    ADD CONSTRAINT season_person_season_id_fkey FOREIGN KEY (season_id) REFERENCES public.season(season_id);

ALTER TABLE ONLY public.seat
    ADD CONSTRAINT seat_contest_id_judge_id_duty_fkey FOREIGN KEY (contest_id, judge_id, duty) REFERENCES public.official(contest_id, official_id, duty);

ALTER TABLE ONLY public.seat
    ADD CONSTRAINT seat_contest_id_programme_id_fkey FOREIGN KEY (contest_id, programme_id) REFERENCES public.programme(contest_id, programme_id);

ALTER TABLE ONLY public.sequence
    ADD CONSTRAINT sequence_contest_id_category_id_pilot_id_fkey FOREIGN KEY (contest_id, category_id, pilot_id) REFERENCES public.entry(contest_id, category_id, pilot_id);

ALTER TABLE ONLY public.sequence
    ADD CONSTRAINT sequence_contest_id_programme_id_category_id_own_sequences_fkey FOREIGN KEY (contest_id, programme_id, category_id, own_sequences) REFERENCES public.programme(contest_id, programme_id, category_id, own_sequences);

ALTER TABLE ONLY public.sequence_item
    ADD CONSTRAINT sequence_item_contest_id_sequence_id_fkey FOREIGN KEY (contest_id, sequence_id) REFERENCES public.sequence(contest_id, sequence_id);

ALTER TABLE ONLY public.session
    ADD CONSTRAINT session_account_id_fkey FOREIGN KEY (account_id) REFERENCES public.account(account_id);

ALTER TABLE ONLY public.session
    ADD CONSTRAINT session_contest_id_device_id_fkey FOREIGN KEY (contest_id, device_id) REFERENCES public.device(contest_id, device_id);
