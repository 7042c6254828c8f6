package db

import "github.com/google/uuid"

// Arrived is how many deliveries of a contest wait for those that are being stored.
func (db *DB) Arrived(contest uuid.UUID) int {
	db.arrived.mu.Lock()
	defer db.arrived.mu.Unlock()
	return len(db.arrived.contests[contest])
}
