// Package migrations holds the steps of the database's schema: NNNN_name.up.sql
// and its .down.sql, each one implicit transaction. schema.sql is what all of
// them together make; a test of package db keeps it true.
package migrations

import "embed"

// Files are the steps, for a migrator to run in order.
//
//go:embed *.up.sql *.down.sql
var Files embed.FS

// Latest is the version of the last step.
const Latest = 17
