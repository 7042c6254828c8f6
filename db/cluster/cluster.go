// Package cluster runs a private Postgres from the server programs that are
// installed on the machine: on a Unix socket only, with every commit on disk
// before it is answered, and gone when the process that started it is.
package cluster

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/url"
	"os"
	"path/filepath"
	"time"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"
)

const (
	// name is that of the cluster's superuser and of its database.
	name = "halfpoint"
	// port names the socket's file only: nothing listens on a network.
	port = "5432"

	startTimeout = 60 * time.Second // a crashed server reads its log first
	stopTimeout  = 8 * time.Second  // where nobody says by when
	lookEvery    = 20 * time.Millisecond
)

// A Cluster is a running private Postgres.
type Cluster struct {
	socket string  // the folder of its socket
	keeper *keeper // of the server; nil where another process started it
	passes bool    // the folder is of no use to anyone after us
}

// Start makes the cluster in dir where there is none and starts it. Where
// another process is already running it, that one is used, and stays when this
// Cluster stops. Settings, of the form name=value, change what the server does
// by itself.
func Start(ctx context.Context, dir string, settings ...string) (*Cluster, error) {
	ctx, cancel := context.WithTimeout(ctx, startTimeout)
	defer cancel()
	p, err := findPlace(ctx, dir)
	if err != nil {
		return nil, err
	}
	if err := p.initialise(ctx, settings); err != nil {
		return nil, err
	}
	c, err := p.running(ctx)
	if c == nil && err == nil {
		c, err = p.launch(ctx, settings)
	}
	if err != nil {
		return nil, err
	}
	if err := c.createDatabase(ctx); err != nil {
		c.Stop()
		return nil, err
	}
	return c, nil
}

// URL is where the cluster's database is reached.
func (c *Cluster) URL() string { return c.url(name) }

func (c *Cluster) url(database string) string {
	query := url.Values{"host": {c.socket}, "port": {port}, "user": {name}}
	return "postgres:///" + database + "?" + query.Encode()
}

// Stop stops the server if this process started it: it waits for nobody's
// session, and returns when the data are at rest.
func (c *Cluster) Stop() { c.StopBy(time.Now().Add(stopTimeout)) }

// StopBy stops as Stop does, and is over by then: a server that is not ready in
// time is killed, loses nothing, and reads its log at its next start.
func (c *Cluster) StopBy(end time.Time) {
	if c.keeper != nil {
		c.keeper.stop(end)
		c.removeSocket()
	}
}

// await returns when the server takes connections. Gone tells that it never
// will.
func (c *Cluster) await(ctx context.Context, gone func() error) error {
	look := time.NewTicker(lookEvery)
	defer look.Stop()
	for {
		err := c.ping(ctx)
		if err == nil {
			return nil
		}
		if gone := gone(); gone != nil {
			return gone
		}
		if !notYet(err) {
			return fmt.Errorf("connecting to the private Postgres: %w", err)
		}
		select {
		case <-ctx.Done():
			return fmt.Errorf("waiting for the private Postgres: %w", err)
		case <-look.C:
		}
	}
}

func (c *Cluster) ping(ctx context.Context) error {
	conn, err := pgx.Connect(ctx, c.url("postgres"))
	if err != nil {
		return err
	}
	return conn.Close(ctx)
}

// notYet tells whether a connection failed because the server is starting,
// stopping or not there, which waiting mends.
func notYet(err error) bool {
	if refused, ok := errors.AsType[*pgconn.PgError](err); ok {
		return refused.Code == "57P03" // cannot_connect_now
	}
	_, dialled := errors.AsType[*net.OpError](err)
	return dialled
}

func (c *Cluster) createDatabase(ctx context.Context) error {
	conn, err := pgx.Connect(ctx, c.url("postgres"))
	if err != nil {
		return fmt.Errorf("connecting to the private Postgres: %w", err)
	}
	defer conn.Close(ctx)
	var there bool // a standby has what its primary has
	err = conn.QueryRow(ctx, "SELECT EXISTS (SELECT FROM pg_database WHERE datname = $1)", name).Scan(&there)
	if err == nil && !there {
		_, err = conn.Exec(ctx, "CREATE DATABASE "+name)
	}
	if exists, ok := errors.AsType[*pgconn.PgError](err); ok && (exists.Code == "42P04" || exists.Code == "23505") {
		return nil // duplicate_database; the other code when two make it at once
	}
	if err != nil {
		return fmt.Errorf("making the database: %w", err)
	}
	return nil
}

// longestFolder is how long the name of a socket's folder may be: with the
// socket's own it must be below 108 bytes.
const longestFolder = 80

// makeSocket makes the folder for the socket: beside the data, or, where that
// name is too long, among the temporary files.
func (c *Cluster) makeSocket(p *place) (err error) {
	c.socket = filepath.Join(p.dir, "socket")
	if len(c.socket) <= longestFolder {
		err = os.MkdirAll(c.socket, 0o700)
	} else {
		c.socket, err = os.MkdirTemp("/tmp", name+"-")
		c.passes = true
	}
	if err != nil {
		return fmt.Errorf("making a folder for the socket: %w", err)
	}
	return p.owner.own(c.socket)
}

func (c *Cluster) removeSocket() {
	if c.passes {
		_ = os.RemoveAll(c.socket) // among the temporary files
	}
}
