package study

import (
	"flag"
	"os"
	"testing"
)

var contests = flag.Int("contests", 20, "contests of each scenario in BenchmarkStudy")

// BenchmarkStudy runs the whole study and prints its tables.
func BenchmarkStudy(b *testing.B) {
	var rows []Row
	for b.Loop() {
		rows = RunAll(*contests)
	}
	if err := Print(os.Stdout, rows); err != nil {
		b.Fatal(err)
	}
}
