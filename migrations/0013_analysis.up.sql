ALTER TABLE contest_role
    ADD COLUMN judge_id uuid,
    ADD FOREIGN KEY (contest_id, judge_id) REFERENCES official,
    DROP CONSTRAINT contest_role_role_check,
    ADD CONSTRAINT contest_role_role_check CHECK (role IN ('director', 'office', 'jury', 'pilot', 'judge')),
    ADD CHECK ((role = 'judge') = (judge_id IS NOT NULL));
COMMENT ON COLUMN contest_role.judge_id IS 'Which judge of the contest the account is.';

ALTER TABLE invitation
    ADD COLUMN judge_id uuid,
    ADD FOREIGN KEY (contest_id, judge_id) REFERENCES official,
    DROP CONSTRAINT invitation_role_check,
    ADD CONSTRAINT invitation_role_check CHECK (role IN ('director', 'office', 'jury', 'pilot', 'judge')),
    ADD CHECK ((role = 'judge') = (judge_id IS NOT NULL));
COMMENT ON COLUMN invitation.judge_id IS 'Which judge of the contest the person is.';

CREATE TABLE analysis_opening (
    contest_id   uuid        NOT NULL,
    programme_id uuid        NOT NULL,
    opened_at    timestamptz NOT NULL DEFAULT clock_timestamp(),
    opened_by    text        NOT NULL,
    PRIMARY KEY (contest_id, programme_id),
    FOREIGN KEY (contest_id, programme_id) REFERENCES programme
);
COMMENT ON TABLE analysis_opening IS 'Programmes of whose judges everyone sees the analysis who sees the contest; for good.';
COMMENT ON COLUMN analysis_opening.contest_id IS 'The contest.';
COMMENT ON COLUMN analysis_opening.programme_id IS 'The programme.';
COMMENT ON COLUMN analysis_opening.opened_at IS 'By the database''s clock.';
COMMENT ON COLUMN analysis_opening.opened_by IS 'The account.';
