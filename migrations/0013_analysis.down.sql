DROP TABLE analysis_opening;

DELETE FROM invitation WHERE role = 'judge';
ALTER TABLE invitation
    DROP COLUMN judge_id,
    DROP CONSTRAINT invitation_role_check,
    ADD CONSTRAINT invitation_role_check CHECK (role IN ('director', 'office', 'jury', 'pilot'));

DELETE FROM contest_role WHERE role = 'judge';
ALTER TABLE contest_role
    DROP COLUMN judge_id,
    DROP CONSTRAINT contest_role_role_check,
    ADD CONSTRAINT contest_role_role_check CHECK (role IN ('director', 'office', 'jury', 'pilot'));
