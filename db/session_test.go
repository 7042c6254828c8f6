package db_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"halfpoint/db"
	"halfpoint/db/dbtest"
)

func TestSessionTellsWhoAndWhere(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	contest, a, hash := small(t, d), somebody(t, d, "a@example.org"), aHash()
	part := partOf(t, d, contest)
	pilot := part.Pilots[part.Bundle.Pilots[0].ID]
	if err := errors.Join(
		d.GiveRole(t.Context(), contest, a.ID, db.RoleOffice, uuid.Nil, ""),
		d.GiveRole(t.Context(), contest, a.ID, db.RolePilot, pilot, ""),
	); err != nil {
		t.Fatal(err)
	}
	expires, err := d.OpenSession(t.Context(), a.ID, db.NewSession{Hash: hash, UserAgent: strings.Repeat("ä", 300), Password: true})
	if err != nil {
		t.Fatal(err)
	}
	s, err := d.Session(t.Context(), hash)
	if err != nil || *s.Account != a || !s.Confirmed || !s.ExpiresAt.Equal(expires) || s.Device != uuid.Nil {
		t.Errorf("%+v, %v", s, err)
	}
	here := db.Named{ID: contest, Name: part.Bundle.Contest.Name}
	want := []db.Role{{Contest: here, Role: db.RoleOffice}, {Contest: here, Role: db.RolePilot, Pilot: pilot}}
	if len(s.Roles) != 2 || s.Roles[0] != want[0] || s.Roles[1] != want[1] {
		t.Errorf("the roles are %+v, want %+v", s.Roles, want)
	}
	list, err := d.Sessions(t.Context(), a.ID)
	if err != nil || len(list) != 1 || list[0].ID != s.ID || list[0].UserAgent != strings.Repeat("ä", 200) {
		t.Errorf("%+v, %v", list, err)
	}
	if _, err := d.Session(t.Context(), aHash()); !errors.Is(err, db.ErrNotFound) {
		t.Errorf("a guessed secret: %v", err)
	}
}

func TestSessionsEnd(t *testing.T) {
	t.Parallel()
	url := dbtest.URL(t)
	d := open(t, url)
	a, other := somebody(t, d, "a@example.org"), somebody(t, d, "b@example.org")
	begin := func() (db.Hash, uuid.UUID) {
		hash := aHash()
		signIn(t, d, a.ID, hash)
		s, err := d.Session(t.Context(), hash)
		if err != nil {
			t.Fatal(err)
		}
		return hash, s.ID
	}
	for name, end := range map[string]func(id uuid.UUID) error{
		"signed out":           func(id uuid.UUID) error { return d.EndSession(t.Context(), id) },
		"withdrawn":            func(id uuid.UUID) error { return d.WithdrawSession(t.Context(), a.ID, id) },
		"the password changed": func(uuid.UUID) error { return d.SetPassword(t.Context(), a.ID, "new", uuid.Nil) },
		"time": func(id uuid.UUID) error {
			_, err := query(t, url).Exec(t.Context(), "UPDATE session SET expires_at = now() WHERE session_id = $1", id)
			return err
		},
		"disabled": func(uuid.UUID) error {
			return errors.Join(d.Disable(t.Context(), a.ID, true), d.Disable(t.Context(), a.ID, false))
		},
	} {
		hash, id := begin()
		if err := d.WithdrawSession(t.Context(), other.ID, id); !errors.Is(err, db.ErrNotFound) {
			t.Errorf("withdrawn by another: %v", err)
		}
		if err := end(id); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if _, err := d.Session(t.Context(), hash); !errors.Is(err, db.ErrNotFound) {
			t.Errorf("%s, and it goes on: %v", name, err)
		}
		if list, err := d.Sessions(t.Context(), a.ID); err != nil || len(list) > 0 {
			t.Errorf("%s, and it is listed: %v, %v", name, list, err)
		}
	}
	kept, id := begin()
	gone, _ := begin()
	if err := d.SetPassword(t.Context(), a.ID, "newer", id); err != nil {
		t.Fatal(err)
	}
	if _, err := d.Session(t.Context(), kept); err != nil {
		t.Errorf("the session that changed the password: %v", err)
	}
	if _, err := d.Session(t.Context(), gone); !errors.Is(err, db.ErrNotFound) {
		t.Errorf("the other one: %v", err)
	}
}

// TestSessionsEndAfterTheContest has contests of other days. The days are the
// design's: two after the contest, at most 30 and not within one.
func TestSessionsEndAfterTheContest(t *testing.T) {
	t.Parallel()
	url := dbtest.URL(t)
	d := open(t, url)
	contest, a := small(t, d), somebody(t, d, "a@example.org")
	conn := query(t, url)
	lasts := func() (days float64) {
		hash := aHash()
		signIn(t, d, a.ID, hash)
		if err := conn.QueryRow(t.Context(), `SELECT extract(epoch FROM expires_at - current_date) / 86400.0 FROM session WHERE hash = $1`,
			hash[:]).Scan(&days); err != nil {
			t.Fatal(err)
		}
		return days
	}
	if days := lasts(); days < 30 || days > 31 {
		t.Errorf("without a contest it ends after %v days", days)
	}
	if err := d.GiveRole(t.Context(), contest, a.ID, db.RoleOffice, uuid.Nil, ""); err != nil {
		t.Fatal(err)
	}
	for ends, want := range map[int]float64{-100: 1, 0: 3, 4: 7, 100: 30} {
		if _, err := conn.Exec(t.Context(), "UPDATE contest SET starts = NULL, ends = current_date + $1::int", ends); err != nil {
			t.Fatal(err)
		}
		if days := lasts(); days < want || days >= want+1 {
			t.Errorf("with a contest that ends in %d days it ends after %v, want %v and the hours of today at most", ends, days, want)
		}
	}
}

func TestPasswordAgainIsGoodForAWhile(t *testing.T) {
	t.Parallel()
	url := dbtest.URL(t)
	d := open(t, url)
	a, hash := somebody(t, d, "a@example.org"), aHash()
	signIn(t, d, a.ID, hash)
	confirmed := func() bool {
		s, err := d.Session(t.Context(), hash)
		if err != nil {
			t.Fatal(err)
		}
		return s.Confirmed
	}
	if confirmed() {
		t.Error("no password was given yet")
	}
	s, err := d.Session(t.Context(), hash)
	if err != nil {
		t.Fatal(err)
	}
	if err := d.ConfirmSession(t.Context(), s.ID); err != nil || !confirmed() {
		t.Errorf("given now, %v", err)
	}
	if _, err := query(t, url).Exec(t.Context(), "UPDATE session SET confirmed_at = now() - interval '10 minutes 1 second'"); err != nil {
		t.Fatal(err)
	}
	if confirmed() {
		t.Error("it is longer than ten minutes ago")
	}
}

func TestSeenIsNotedEveryMinute(t *testing.T) {
	t.Parallel()
	url := dbtest.URL(t)
	d := open(t, url)
	a, hash := somebody(t, d, "a@example.org"), aHash()
	signIn(t, d, a.ID, hash)
	conn := query(t, url)
	for ago, noted := range map[string]bool{"30 seconds": false, "2 minutes": true} {
		if _, err := conn.Exec(t.Context(), "UPDATE session SET last_seen_at = now() - $1::interval", ago); err != nil {
			t.Fatal(err)
		}
		if _, err := d.Session(t.Context(), hash); err != nil {
			t.Fatal(err)
		}
		var now bool
		if err := conn.QueryRow(t.Context(), "SELECT last_seen_at > now() - interval '20 seconds' FROM session").Scan(&now); err != nil || now != noted {
			t.Errorf("seen %s ago, and noted: %v, %v", ago, now, err)
		}
	}
}

func TestDevicesSession(t *testing.T) {
	t.Parallel()
	url := dbtest.URL(t)
	d := open(t, url)
	contest := small(t, d)
	part := partOf(t, d, contest)
	judge, device, hash := part.Judges[part.Bundle.Judges[0].ID], uuid.New(), aHash()
	conn := query(t, url)
	if _, err := conn.Exec(t.Context(), `
		WITH paired AS (
			INSERT INTO device (contest_id, device_id, role, judge_id, public_key)
			VALUES (@contest, @device, 'judge', @judge, '\x00')
		)
		INSERT INTO session (session_id, hash, contest_id, device_id, user_agent, expires_at)
		VALUES (@device, @hash, @contest, @device, '', now() + interval '1 day')`,
		pgx.StrictNamedArgs{"contest": contest, "device": device, "judge": judge, "hash": hash[:]}); err != nil {
		t.Fatal(err)
	}
	s, err := d.Session(t.Context(), hash)
	if err != nil || s.Account != nil || s.Device != device || len(s.Roles) != 1 ||
		s.Roles[0] != (db.Role{Contest: db.Named{ID: contest, Name: part.Bundle.Contest.Name}, Role: "judge", Judge: judge}) {
		t.Errorf("%+v, %v", s, err)
	}
	if _, err := conn.Exec(t.Context(), "UPDATE device SET withdrawn_at = now()"); err != nil {
		t.Fatal(err)
	}
	if _, err := d.Session(t.Context(), hash); !errors.Is(err, db.ErrNotFound) {
		t.Errorf("of a withdrawn device: %v", err)
	}
}

func TestOldSessionsAreForgotten(t *testing.T) {
	t.Parallel()
	url := dbtest.URL(t)
	d := open(t, url)
	a, conn := somebody(t, d, "a@example.org"), query(t, url)
	for range 2 {
		signIn(t, d, a.ID, aHash())
		if _, err := conn.Exec(t.Context(), "UPDATE session SET expires_at = now() - $1::interval", 31*24*time.Hour); err != nil {
			t.Fatal(err)
		}
	}
	var kept int
	if err := conn.QueryRow(t.Context(), "SELECT count(*) FROM session").Scan(&kept); err != nil || kept != 1 {
		t.Errorf("%d sessions are kept, %v", kept, err)
	}
}
