package db

import (
	"fmt"
	"time"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"
)

// How long one server may take to let itself be connected to, and to say that an
// idle connection still holds. One that is gone without a word takes longer.
const (
	connectTime = 3 * time.Second
	pingTime    = 2 * time.Second
)

// mostConns is how many connections a process has at most, where the URL does not
// say by pool_max_conns. Most of them wait for the disk together: one for each core
// would leave it idle. A Postgres takes 100 of all processes unless told otherwise.
const mostConns = 20

func maxConns(url string, said int32) (int32, error) {
	config, err := pgx.ParseConfig(url) // which leaves what is the pool's
	if err != nil {
		return 0, fmt.Errorf("the database's URL: %w", err)
	}
	if config.RuntimeParams["pool_max_conns"] == "" {
		return mostConns, nil
	}
	return said, nil
}

// followWriter has connections go to the one of several servers that takes what
// is written, whichever that is by now, unless the URL says what it wants.
func followWriter(c *pgx.ConnConfig) {
	boundConnect(c)
	if c.ValidateConnect == nil && namesSeveral(c) {
		c.ValidateConnect = pgconn.ValidateConnectTargetSessionAttrsReadWrite
	}
}

func boundConnect(c *pgx.ConnConfig) {
	if c.ConnectTimeout == 0 {
		c.ConnectTimeout = connectTime
	}
}

// namesSeveral tells whether a URL names more than one server. One alone has a
// fallback too, where it may be reached with TLS or without.
func namesSeveral(c *pgx.ConnConfig) bool {
	for _, other := range c.Fallbacks {
		if other.Host != c.Host || other.Port != c.Port {
			return true
		}
	}
	return false
}

// Connections say how the pool of connections is used.
type Connections struct {
	Open, Idle, Most int
	// Waited is how often one had to be waited for.
	Waited int64
}

// Connections tells of the pool as it is now.
func (db *DB) Connections() Connections {
	s := db.pool.Stat()
	return Connections{
		Open: int(s.TotalConns()), Idle: int(s.IdleConns()), Most: int(s.MaxConns()),
		Waited: s.EmptyAcquireCount(),
	}
}
