package main

import (
	"bytes"
	"context"
	"io"
	"net/http"
	"regexp"
	"strings"
	"testing"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/db/dbtest"
	"halfpoint/identity"
	"halfpoint/scoring"
)

// command runs the program against a database.
func command(t *testing.T, url string, args ...string) (status int, stdout, stderr string) {
	t.Helper()
	var out, problems bytes.Buffer
	status = run(t.Context(), append(args, "--database", url), strings.NewReader(""), &out, &problems)
	return status, out.String(), problems.String()
}

// opened is the database, to look beside the program.
func opened(t *testing.T, url string) *db.DB {
	t.Helper()
	d, err := db.Open(t.Context(), url)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(d.Close)
	return d
}

// secretIn is the secret of a printed link to a page.
func secretIn(t *testing.T, page, text string) identity.Hash {
	t.Helper()
	found := regexp.MustCompile(regexp.QuoteMeta(page) + `#(\S{43})\n$`).FindStringSubmatch(text)
	if found == nil {
		t.Fatalf("no link to %s in %q", page, text)
	}
	return identity.HashSecret(found[1])
}

func TestAccountCommands(t *testing.T) {
	t.Parallel()
	url := dbtest.URL(t)
	d := opened(t, url)
	if status, out, said := command(t, url, "account", "list"); status != 0 || out != "" || !strings.Contains(said, "no account yet") {
		t.Errorf("an empty list: %d, %q, %q", status, out, said)
	}
	a, err := d.MakeAccount(t.Context(), db.NewAccount{Email: "mara@example.org", Name: "Mara Quist", Password: "hash"})
	if err != nil {
		t.Fatal(err)
	}
	status, out, said := command(t, url, "account", "reset", "Mara@example.org", "--at", "https://contest.example.org/")
	if status != 0 {
		t.Fatalf("%d, %s", status, said)
	}
	if whose, err := d.LinkAccount(t.Context(), secretIn(t, "https://contest.example.org/password", out), db.LinkPassword); err != nil || whose.ID != a.ID {
		t.Errorf("the link is %+v's, %v", whose, err)
	}
	if status, _, said := command(t, url, "account", "disable", "mara@example.org"); status != 0 {
		t.Errorf("%d, %s", status, said)
	}
	if _, out, _ := command(t, url, "account", "list"); !strings.HasPrefix(out, "mara@example.org\tMara Quist\tdisabled since ") {
		t.Errorf("the list is %q", out)
	}
	if status, _, said := command(t, url, "account", "enable", "mara@example.org"); status != 0 {
		t.Errorf("%d, %s", status, said)
	}
	if _, out, _ := command(t, url, "account", "list"); out != "mara@example.org\tMara Quist\n" {
		t.Errorf("the list is %q", out)
	}
	if status, _, said := command(t, url, "account", "reset", "nobody@example.org"); status != int(statusBadInput) || !strings.Contains(said, "nobody@example.org") {
		t.Errorf("%d, %s", status, said)
	}
}

func TestAccountInvite(t *testing.T) {
	t.Parallel()
	url := dbtest.URL(t)
	d := opened(t, url)
	contest, err := d.Import(t.Context(), &scoring.Bundle{
		Format: scoring.BundleFormat, Contest: scoring.Contest{Name: "Open"}, Pilots: []scoring.Pilot{{ID: "quist", Name: "Mara Quist"}},
		Judges: []scoring.Judge{{ID: "arno", Name: "Arno Wels"}},
	}, db.ImportOptions{})
	if err != nil {
		t.Fatal(err)
	}
	invite := func(args ...string) (int, string, string) {
		return command(t, url, append([]string{"account", "invite"}, args...)...)
	}
	_, out, _ := invite(contest.String(), "director")
	if offer, err := d.Offer(t.Context(), secretIn(t, "http://127.0.0.1:8080/invitation", out)); err != nil || offer.Role != db.RoleDirector {
		t.Errorf("%+v, %v", offer, err)
	}
	_, out, _ = invite(contest.String(), "pilot", "--pilot", "quist")
	if offer, err := d.Offer(t.Context(), secretIn(t, "/invitation", out)); err != nil || offer.Pilot == nil || offer.Pilot.Name != "Mara Quist" {
		t.Errorf("%+v, %v", offer, err)
	}
	_, out, _ = invite(contest.String(), "judge", "--judge", "arno")
	if offer, err := d.Offer(t.Context(), secretIn(t, "/invitation", out)); err != nil || offer.Judge == nil || offer.Judge.Name != "Arno Wels" {
		t.Errorf("%+v, %v", offer, err)
	}
	for want, args := range map[string][]string{
		"not the id of a contest": {"contest", "director"},
		"there is no contest":     {uuid.NewString(), "director"},
		"no role of an account":   {contest.String(), "assistant"},
		"needs --judge":           {contest.String(), "judge", "--judge", "nobody"},
		"needs --pilot":           {contest.String(), "pilot", "--pilot", "nobody"},
	} {
		if status, out, said := invite(args...); status != int(statusBadInput) || out != "" || !strings.Contains(said, want) {
			t.Errorf("%v: %d, %q, %q; want %q", args, status, out, said, want)
		}
	}
}

func TestAccountHelpShowsAnExample(t *testing.T) {
	t.Parallel()
	for _, args := range [][]string{{}, {"list"}, {"invite"}, {"reset"}, {"disable"}, {"enable"}} {
		var out bytes.Buffer
		status := run(t.Context(), append(append([]string{"account"}, args...), "--help"), strings.NewReader(""), &out, io.Discard)
		if status != 0 || !strings.Contains(out.String(), "Examples:\n  halfpoint account ") {
			t.Errorf("%v: %d, %s", args, status, &out)
		}
	}
}

// TestServeOffersTheFirstAccountOnce starts the service on an empty database
// and makes the first account by the link that it prints.
func TestServeOffersTheFirstAccountOnce(t *testing.T) {
	url := dbtest.URL(t)
	printed, log := firstStart(t, url)
	found := regexp.MustCompile(`(http://\S+)/first#(\S{43})`).FindStringSubmatch(printed)
	if found == nil {
		t.Fatalf("no link in %q", printed)
	}
	if strings.Contains(log, found[2]) {
		t.Errorf("the log has the secret: %s", log)
	}
	d := opened(t, url)
	if _, err := d.MakeFirstAccount(t.Context(), identity.HashSecret(found[2]), db.NewAccount{Email: "first@example.org", Name: "First"}); err != nil {
		t.Fatal(err)
	}
	if printed, _ := firstStart(t, url); printed != "" {
		t.Errorf("offered again: %q", printed)
	}
}

// firstStart runs serve until it answers, and returns what it printed.
func firstStart(t *testing.T, url string) (stdout, stderr string) {
	t.Helper()
	ctx, stop := context.WithCancel(t.Context())
	defer stop()
	var out, log bytes.Buffer
	serving := &watched{found: make(chan string, 1), pattern: regexp.MustCompile(`"url":"([^"]+)"`)}
	ended := make(chan int)
	go func() {
		ended <- run(ctx, []string{"serve", "--listen", "127.0.0.1:0", "--data", t.TempDir(), "--database", url},
			strings.NewReader(""), &out, io.MultiWriter(serving, &log))
	}()
	select {
	case at := <-serving.found:
		answered(t, strings.Split(at, `"`)[3])
	case status := <-ended:
		t.Fatalf("ended with %d: %s", status, &log)
	}
	stop()
	if status := <-ended; status != 0 {
		t.Errorf("ended with %d: %s", status, &log)
	}
	return out.String(), log.String()
}

// answered asks once: the service answers after what it prints.
func answered(t *testing.T, url string) {
	t.Helper()
	response, err := http.Get(url + "/healthz")
	if err != nil {
		t.Fatal(err)
	}
	response.Body.Close()
}
