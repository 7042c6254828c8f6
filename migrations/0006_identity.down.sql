DROP TABLE session, invitation, contest_role, link, account;
