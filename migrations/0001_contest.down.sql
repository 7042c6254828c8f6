DROP TABLE penalty_kind, pilot, official, journal, contest_head, contest, server;
DROP FUNCTION refuse_change();
