package db

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"strings"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"
)

// What every error of this package that a caller can do something about is, for
// errors.Is. Any other error is a fault of the program.
var (
	// ErrNotFound: there is no such contest, programme, flight ….
	ErrNotFound = errors.New("not found")
	// ErrConflict: something else has its place or its name already.
	ErrConflict = errors.New("conflicts with what is there")
	// ErrInvalid: what was given makes no state that a contest can have.
	ErrInvalid = errors.New("makes no possible state")
	// ErrUnavailable: the database cannot be reached, went away, or takes nothing
	// now, as a standby or a full disk. Whether what was being stored is stored is
	// then not known; asking again is safe.
	ErrUnavailable = errors.New("the database is not available")
)

// translate makes of an error of pgx one of this package, with the original
// inside.
func translate(err error) error {
	kind := kindOf(err)
	if kind == nil {
		return err
	}
	return fmt.Errorf("%w: %w", kind, err)
}

// kindOf returns what an error of pgx means here, or nil for nothing special.
func kindOf(err error) error {
	if err == nil || errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded) {
		return nil
	}
	if errors.Is(err, pgx.ErrNoRows) {
		return ErrNotFound
	}
	_, connecting := errors.AsType[*pgconn.ConnectError](err)
	refused, ok := errors.AsType[*pgconn.PgError](err)
	switch {
	case ok && connecting && strings.HasPrefix(refused.Code, "XX"): // internal_error: with a full disk it cannot begin
		return ErrUnavailable
	case ok:
		return kindOfCode(refused.Code)
	case connecting || isAway(err):
		return ErrUnavailable
	}
	return nil
}

// kindOfCode knows the codes of Postgres' manual, appendix A.
func kindOfCode(code string) error {
	switch code {
	case "23505", "23P01": // unique_violation, exclusion_violation
		return ErrConflict
	case "23502", "23503", "23514": // not_null, foreign_key, check_violation
		return ErrInvalid
	case "57P01", "57P02", "57P03", "57P05": // shut down, crashed, starting, idle too long
		return ErrUnavailable
	case "25006": // read_only_sql_transaction: it is a standby
		return ErrUnavailable
	}
	switch code[:min(len(code), 2)] {
	case "08", "53", "58": // connection_exception, insufficient_resources, system_error
		return ErrUnavailable
	}
	return nil
}

func isAway(err error) bool {
	if _, ok := errors.AsType[*net.OpError](err); ok {
		return true
	}
	return errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) || errors.Is(err, net.ErrClosed) || pgconn.SafeToRetry(err)
}
