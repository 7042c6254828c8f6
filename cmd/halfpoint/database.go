package main

import (
	"cmp"
	"context"
	"os"

	"github.com/spf13/cobra"

	"halfpoint/db"
	"halfpoint/db/cluster"
)

const (
	databaseVariable = "HALFPOINT_DATABASE"
	dataVariable     = "HALFPOINT_DATA"
	defaultData      = "./data"
)

// databaseFlags say which database a command works with: one that is running,
// or a private one in a folder.
type databaseFlags struct{ url, data string }

// add gives the command its flags. What the environment says is no default of
// theirs: a password must not stand in the help.
func (f *databaseFlags) add(cmd *cobra.Command) {
	cmd.Flags().StringVar(&f.url, "database", "", "URL of a running Postgres, also "+databaseVariable)
	cmd.Flags().StringVar(&f.data, "data", "", "folder of a private Postgres where no URL is given, also "+dataVariable+" (default "+defaultData+")")
}

// folder is that of the data.
func (f *databaseFlags) folder() string { return cmp.Or(f.data, os.Getenv(dataVariable), defaultData) }

// locate returns the URL of the database. It starts the private Postgres where
// that is the one and no other process has it running; stop must be called.
func (f *databaseFlags) locate(ctx context.Context) (url string, stop func(), err error) {
	if url = cmp.Or(f.url, os.Getenv(databaseVariable)); url != "" {
		return url, func() {}, nil
	}
	c, err := cluster.Start(ctx, f.folder())
	if err != nil {
		return "", nil, err
	}
	return c.URL(), c.Stop, nil
}

// open brings the database up to date and opens it; shut closes it, and what
// was started for it.
func (f *databaseFlags) open(ctx context.Context) (d *db.DB, shut func(), err error) {
	d, _, shut, err = f.openAt(ctx)
	return d, shut, err
}

// openAt also says where the database is.
func (f *databaseFlags) openAt(ctx context.Context) (d *db.DB, url string, shut func(), err error) {
	url, stop, err := f.locate(ctx)
	if err != nil {
		return nil, "", nil, err
	}
	if err := db.Migrate(ctx, url); err != nil {
		stop()
		return nil, "", nil, err
	}
	if d, err = db.Open(ctx, url); err != nil {
		stop()
		return nil, "", nil, err
	}
	return d, url, func() { d.Close(); stop() }, nil
}

// withDatabase runs f with the database open.
func withDatabase(cmd *cobra.Command, from *databaseFlags, f func(context.Context, *db.DB) error) error {
	d, shut, err := from.open(cmd.Context())
	if err != nil {
		return err
	}
	defer shut()
	return f(cmd.Context(), d)
}
