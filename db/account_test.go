package db_test

import (
	"errors"
	"testing"
	"time"

	"github.com/google/uuid"

	"halfpoint/db"
	"halfpoint/db/dbtest"
	"halfpoint/identity"
)

// somebody makes an account.
func somebody(t testing.TB, d *db.DB, email string) db.Account {
	t.Helper()
	a, err := d.MakeAccount(t.Context(), db.NewAccount{Email: email, Name: "Mara Quist", Password: "the hash"})
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// signIn opens a session of an account, of a device that says nothing of itself.
func signIn(t testing.TB, d *db.DB, account uuid.UUID, hash db.Hash) {
	t.Helper()
	if _, err := d.OpenSession(t.Context(), account, db.NewSession{Hash: hash}); err != nil {
		t.Fatal(err)
	}
}

// aHash is that of a secret nobody else has.
func aHash() db.Hash { return identity.HashSecret(identity.NewSecret()) }

func TestAddressesDifferInMoreThanCase(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	made := somebody(t, d, "Mara@Example.org")
	if _, err := d.MakeAccount(t.Context(), db.NewAccount{Email: "mara@example.ORG", Name: "Another"}); !errors.Is(err, db.ErrTaken) {
		t.Errorf("the same address in other letters: %v", err)
	}
	found, err := d.CredentialsByEmail(t.Context(), "MARA@example.org")
	if err != nil || found.Account != made || found.Email != "Mara@Example.org" || found.Password != "the hash" {
		t.Errorf("%+v, %v, want %+v", found, err, made)
	}
	if _, err := d.CredentialsByEmail(t.Context(), "mara"); !errors.Is(err, db.ErrNotFound) {
		t.Errorf("nobody's address: %v", err)
	}
	if _, err := d.MakeAccount(t.Context(), db.NewAccount{Name: "Nowhere"}); !errors.Is(err, db.ErrInvalid) {
		t.Errorf("without an address: %v", err)
	}
}

func TestFirstAccountIsMadeOnce(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	offered := []db.Hash{aHash(), aHash()}
	for _, link := range offered {
		if good, err := d.OfferFirst(t.Context(), link, time.Hour); err != nil || !good {
			t.Fatalf("offered to an empty server: %v, %v", good, err)
		}
	}
	if _, err := d.MakeFirstAccount(t.Context(), aHash(), db.NewAccount{Email: "a@b", Name: "Guesser"}); !errors.Is(err, db.ErrNotFound) {
		t.Errorf("by a link that was guessed: %v", err)
	}
	made := make(chan error)
	for _, link := range offered { // at once, by two links
		go func() {
			_, err := d.MakeFirstAccount(t.Context(), link, db.NewAccount{Email: uuid.NewString(), Name: "First"})
			made <- err
		}()
	}
	if a, b := <-made, <-made; (a == nil) == (b == nil) {
		t.Errorf("%v and %v: exactly one may be the first", a, b)
	}
	accounts, err := d.Accounts(t.Context())
	if err != nil || len(accounts) != 1 || !accounts[0].Owner {
		t.Errorf("%+v, %v", accounts, err)
	}
	if good, err := d.OfferFirst(t.Context(), aHash(), time.Hour); err != nil || good {
		t.Errorf("offered again: %v, %v", good, err)
	}
}

func TestPasswordResetByALinkGoodOnce(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	a, link, session := somebody(t, d, "a@example.org"), aHash(), aHash()
	if err := d.MakeLink(t.Context(), link, db.LinkPassword, a.ID, time.Hour); err != nil {
		t.Fatal(err)
	}
	signIn(t, d, a.ID, session)
	if _, err := d.OpenSessionByLink(t.Context(), link, db.NewSession{Hash: aHash()}); !errors.Is(err, db.ErrNotFound) {
		t.Errorf("signed in by a link for another purpose: %v", err)
	}
	if whose, err := d.LinkAccount(t.Context(), link, db.LinkPassword); err != nil || whose != a {
		t.Errorf("whose the link is: %+v, %v", whose, err)
	}
	if whose, err := d.ResetPassword(t.Context(), link, "another hash"); err != nil || whose != a.ID {
		t.Errorf("reset: %v, %v", whose, err)
	}
	if _, err := d.ResetPassword(t.Context(), link, "a third"); !errors.Is(err, db.ErrNotFound) {
		t.Errorf("a second time: %v", err)
	}
	if c, err := d.Credentials(t.Context(), a.ID); err != nil || c.Password != "another hash" {
		t.Errorf("%+v, %v", c, err)
	}
	if _, err := d.Session(t.Context(), session); !errors.Is(err, db.ErrNotFound) {
		t.Errorf("the session of before: %v", err)
	}
}

func TestLinksThatAreNotGood(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	a := somebody(t, d, "a@example.org")
	past, disabled := aHash(), aHash()
	if err := errors.Join(
		d.MakeLink(t.Context(), past, db.LinkSignIn, a.ID, -time.Second),
		d.MakeLink(t.Context(), disabled, db.LinkSignIn, a.ID, time.Hour),
		d.Disable(t.Context(), a.ID, true),
	); err != nil {
		t.Fatal(err)
	}
	for name, link := range map[string]db.Hash{"guessed": aHash(), "past": past, "of a disabled account": disabled} {
		if _, err := d.OpenSessionByLink(t.Context(), link, db.NewSession{Hash: aHash()}); !errors.Is(err, db.ErrNotFound) {
			t.Errorf("%s: %v", name, err)
		}
		if _, err := d.LinkAccount(t.Context(), link, db.LinkSignIn); !errors.Is(err, db.ErrNotFound) {
			t.Errorf("%s, read: %v", name, err)
		}
	}
	if err := d.Disable(t.Context(), a.ID, false); err != nil {
		t.Fatal(err)
	}
	if _, err := d.OpenSessionByLink(t.Context(), disabled, db.NewSession{Hash: aHash()}); err != nil {
		t.Errorf("let in again: %v", err)
	}
}

func TestSecondFactor(t *testing.T) {
	t.Parallel()
	d := dbtest.New(t)
	a := somebody(t, d, "a@example.org")
	key := identity.NewCodeKey()
	if err := d.ConfirmCode(t.Context(), a.ID, 7); !errors.Is(err, db.ErrNotFound) {
		t.Errorf("confirmed without a key: %v", err)
	}
	if err := d.PrepareCode(t.Context(), a.ID, key); err != nil {
		t.Fatal(err)
	}
	if c, err := d.Credentials(t.Context(), a.ID); err != nil || c.SecondFactor || string(c.CodeKey) != string(key) {
		t.Errorf("prepared: %+v, %v", c, err)
	}
	if err := d.ConfirmCode(t.Context(), a.ID, 7); err != nil {
		t.Fatal(err)
	}
	if c, err := d.Credentials(t.Context(), a.ID); err != nil || !c.SecondFactor {
		t.Errorf("confirmed: %+v, %v", c, err)
	}
	if err := d.PrepareCode(t.Context(), a.ID, identity.NewCodeKey()); !errors.Is(err, db.ErrNotFound) {
		t.Errorf("another key beside the one that is asked for: %v", err)
	}
	for _, step := range []int64{6, 7} {
		if err := d.TakeCode(t.Context(), a.ID, step); !errors.Is(err, db.ErrNotFound) {
			t.Errorf("the code of step %d: %v", step, err)
		}
	}
	if err := d.TakeCode(t.Context(), a.ID, 8); err != nil {
		t.Errorf("a new code: %v", err)
	}
	if err := d.TakeCode(t.Context(), a.ID, 8); !errors.Is(err, db.ErrNotFound) {
		t.Errorf("a code a second time: %v", err)
	}
	if err := d.RemoveCode(t.Context(), a.ID); err != nil {
		t.Fatal(err)
	}
	if c, err := d.Credentials(t.Context(), a.ID); err != nil || c.SecondFactor || c.CodeKey != nil {
		t.Errorf("removed: %+v, %v", c, err)
	}
}
