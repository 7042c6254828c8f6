package main

import (
	"testing"

	"halfpoint/db/dbtest"
)

func TestMain(m *testing.M) { dbtest.Main(m) }
