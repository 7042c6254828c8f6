package demo

import (
	"testing"

	"github.com/google/uuid"

	"halfpoint/db"

	"halfpoint/db/dbtest"
)

func TestMain(m *testing.M) { dbtest.Main(m) }

// imported is the demo's contest in a database of its own.
func imported(t *testing.T) (*db.DB, uuid.UUID) {
	t.Helper()
	database := dbtest.New(t)
	bundle, err := Contest()
	if err != nil {
		t.Fatal(err)
	}
	contest, err := database.Import(t.Context(), bundle, db.ImportOptions{Opened: db.Live})
	if err != nil {
		t.Fatal(err)
	}
	return database, contest
}
