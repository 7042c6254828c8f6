package main

import (
	"cmp"
	"context"
	"os"
	"time"

	"github.com/spf13/cobra"

	"halfpoint/db"
	"halfpoint/db/cluster"
)

const (
	databaseVariable = "HALFPOINT_DATABASE"
	dataVariable     = "HALFPOINT_DATA"
	defaultData      = "./data"
)

// What runs until it is told to stop has ended in endTime, which is all that some
// who stop it give. The last of it is the database's.
const (
	endTime    = 10 * time.Second
	closeTime  = 4 * time.Second // to give its connections back, and to stop a private Postgres
	serverTime = 3 * time.Second // for that Postgres alone
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
	url, stopBy, err := f.start(ctx)
	return url, func() { stopBy(time.Now().Add(endTime)) }, err
}

// start locates the database; what it started has stopped by the time that
// stopBy is given.
func (f *databaseFlags) start(ctx context.Context) (url string, stopBy func(time.Time), err error) {
	if url = cmp.Or(f.url, os.Getenv(databaseVariable)); url != "" {
		return url, func(time.Time) {}, nil
	}
	c, err := cluster.Start(ctx, f.folder())
	if err != nil {
		return "", nil, err
	}
	return c.URL(), c.StopBy, nil
}

// open brings the database up to date and opens it; shut closes it, and what
// was started for it.
func (f *databaseFlags) open(ctx context.Context) (d *db.DB, shut func(), err error) {
	d, _, shutBy, err := f.openAt(ctx)
	return d, func() { shutBy(time.Now().Add(endTime)) }, err
}

// openAt also says where the database is, and closes it by the time that shutBy
// is given.
func (f *databaseFlags) openAt(ctx context.Context) (d *db.DB, url string, shutBy func(time.Time), err error) {
	url, stopBy, err := f.start(ctx)
	if err != nil {
		return nil, "", nil, err
	}
	if err = db.Migrate(ctx, url); err == nil {
		d, err = db.Open(ctx, url)
	}
	if err != nil {
		stopBy(time.Now().Add(endTime))
		return nil, "", nil, err
	}
	return d, url, func(end time.Time) { closeBy(d, end); stopBy(end) }, nil
}

// closeBy closes a database and leaves its server the time to stop by then: a
// connection that nobody gives back ends with its server, or with us.
func closeBy(d *db.DB, end time.Time) {
	closed := make(chan struct{})
	go func() { defer close(closed); d.Close() }()
	select {
	case <-closed:
	case <-time.After(time.Until(end.Add(-serverTime))):
	}
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
