package db_test

import (
	"context"
	"errors"
	"net"
	"testing"

	"github.com/jackc/pgx/v5/pgproto3"

	"halfpoint/db"
)

// TestServerThatCannotBegin has a Postgres that refuses connections: with the code
// that one with a full disk gives (seen in a soak: FATAL, could not write init file),
// which passes, and with that of a wrong password, which does not.
func TestServerThatCannotBegin(t *testing.T) {
	t.Parallel()
	for code, passes := range map[string]bool{"XX000": true, "53300": true, "57P03": true, "28P01": false} {
		_, err := db.Open(t.Context(), "postgres://any@"+refusing(t, code)+"/any?sslmode=disable")
		if err == nil || errors.Is(err, db.ErrUnavailable) != passes {
			t.Errorf("refused with %s: %v", code, err)
		}
	}
}

// refusing is the address of a server that answers whoever connects with an error.
func refusing(t *testing.T, code string) string {
	t.Helper()
	l, err := new(net.ListenConfig).Listen(context.WithoutCancel(t.Context()), "tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = l.Close() })
	go func() {
		for {
			conn, err := l.Accept()
			if err != nil {
				return
			}
			server := pgproto3.NewBackend(conn, conn)
			if _, err := server.ReceiveStartupMessage(); err == nil {
				server.Send(&pgproto3.ErrorResponse{Severity: "FATAL", Code: code, Message: "no"})
				_ = server.Flush()
			}
			_ = conn.Close()
		}
	}()
	return l.Addr().String()
}
