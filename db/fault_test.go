package db

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"testing"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"
)

// Codes are those of Postgres' manual, appendix A.
func TestKindOfError(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		err  error
		want error
	}{
		{nil, nil},
		{pgx.ErrNoRows, ErrNotFound},
		{&pgconn.PgError{Code: "23505"}, ErrConflict},
		{&pgconn.PgError{Code: "23514"}, ErrInvalid},
		{&pgconn.PgError{Code: "23503"}, ErrInvalid},
		{&pgconn.PgError{Code: "57P01"}, ErrUnavailable},
		{&pgconn.PgError{Code: "08006"}, ErrUnavailable},
		{&pgconn.PgError{Code: "53300"}, ErrUnavailable},
		{&pgconn.PgError{Code: "53100"}, ErrUnavailable}, // disk_full
		{&pgconn.PgError{Code: "25006"}, ErrUnavailable}, // read_only_sql_transaction
		{&pgconn.PgError{Code: "42P01"}, nil},            // undefined_table: a fault of ours
		{context.Canceled, nil},
		{errors.New("anything"), nil},
	} {
		wrapped := c.err
		if wrapped != nil {
			wrapped = fmt.Errorf("doing it: %w", c.err)
		}
		got := translate(wrapped)
		if !errors.Is(got, c.err) || c.want != nil && !errors.Is(got, c.want) {
			t.Errorf("%v becomes %v, want %v with it inside", c.err, got, c.want)
		}
		if kind := kindOf(wrapped); !errors.Is(kind, c.want) || !errors.Is(c.want, kind) {
			t.Errorf("%v is %v, want %v", c.err, kind, c.want)
		}
	}
}

// hinterOf is a hinter whose hints arrive on the channel.
func hinterOf() (*hinter, chan []uuid.UUID) {
	sent := make(chan []uuid.UUID, 100)
	h := newHinter(nil)
	h.send = func(contests []uuid.UUID) { sent <- contests }
	return h, sent
}

// Many changes of two contests make hints about both, and no more often than there
// are gaps in the time that it took.
func TestHintsAreCoalesced(t *testing.T) {
	t.Parallel()
	h, sent := hinterOf()
	contest, other := uuid.New(), uuid.New()
	began := time.Now()
	h.give(contest)
	if got := <-sent; !slices.Equal(got, []uuid.UUID{contest}) {
		t.Errorf("hints about %s", got)
	}
	for range 1000 {
		h.give(contest)
	}
	h.give(other)
	times := 1
	for there := false; !there; times++ {
		there = slices.Contains(<-sent, other)
	}
	if gaps := int(time.Since(began) / hintGap); times > gaps+1 {
		t.Errorf("%d times hints in %d gaps", times, gaps)
	}
	h.close()
	if len(sent) > 0 {
		t.Errorf("%d more hints", len(sent))
	}
}

func TestNoHintsAfterTheEnd(t *testing.T) {
	t.Parallel()
	h, sent := hinterOf()
	contest := uuid.New()
	h.give(contest)
	<-sent
	h.give(contest) // is due later
	h.close()
	h.give(contest)
	if len(sent) > 0 {
		t.Error("a hint after the end")
	}
}

// A journal with a row changed, left out or cut off is found out.
func TestCheckJournal(t *testing.T) {
	t.Parallel()
	journal := func() (rows []JournalRow) {
		hash := make([]byte, 32)
		for n := range int64(4) {
			body := fmt.Appendf(nil, `{"what":"act %d"}`, n)
			hash = chain(hash, n+1, body)
			rows = append(rows, JournalRow{Number: n + 1, Body: body, Hash: hash})
		}
		return rows
	}
	end := func(rows []JournalRow) Head {
		return Head{JournalNumber: int64(len(rows)), JournalHash: rows[len(rows)-1].Hash}
	}
	whole := journal()
	if err := CheckJournal(end(whole), whole); err != nil {
		t.Fatal(err)
	}
	if err := CheckJournal(Head{JournalHash: make([]byte, 32)}, nil); err != nil {
		t.Errorf("an empty journal: %v", err)
	}
	for name, spoil := range map[string]func(rows []JournalRow) []JournalRow{
		"a body":     func(rows []JournalRow) []JournalRow { rows[1].Body = []byte("{}"); return rows },
		"a hash":     func(rows []JournalRow) []JournalRow { rows[2].Hash = rows[1].Hash; return rows },
		"a row less": func(rows []JournalRow) []JournalRow { return append(rows[:1], rows[2:]...) },
		"the end":    func(rows []JournalRow) []JournalRow { return rows[:3] },
		"two swapped": func(rows []JournalRow) []JournalRow {
			rows[1], rows[2] = rows[2], rows[1]
			return rows
		},
	} {
		if err := CheckJournal(end(whole), spoil(journal())); err == nil {
			t.Errorf("%s changed, and nobody saw it", name)
		}
	}
}
