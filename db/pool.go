package db

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
