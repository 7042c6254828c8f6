package soak

import (
	"context"
	"errors"
	"math/rand/v2"
	"os"
	"path/filepath"
	"syscall"
	"testing"
	"time"
)

// breakThings breaks one thing after the other until it is over; then all is well
// again.
func (s *soak) breakThings(soaking context.Context, random *rand.Rand) {
	faults := []struct {
		name string
		do   func(*rand.Rand)
	}{
		{"process killed", func(*rand.Rand) { s.shaky.kill(); s.shaky.start() }},
		{"database killed", func(*rand.Rand) { s.killDatabase() }},
		{"network cut", func(*rand.Rand) { s.network.cut() }},
		{"network slow", func(r *rand.Rand) { s.network.delay.Store(int64(r.IntN(100)) * int64(time.Millisecond)) }},
		{"network quick", func(*rand.Rand) { s.network.delay.Store(0) }},
		{"clock jumped", s.jump},
		{"disk full", func(*rand.Rand) { s.disk.fill(soaking) }},
	}
	if s.disk == nil {
		faults = faults[:len(faults)-1]
	}
	for n := 0; soaking.Err() == nil; n++ {
		fault := faults[random.IntN(len(faults))]
		if n < len(faults) {
			fault = faults[n] // each of them once, however short it is
		}
		fault.do(random)
		s.mu.Lock()
		s.faults[fault.name]++
		s.mu.Unlock()
		select {
		case <-soaking.Done():
		case <-time.After(time.Duration(200+random.IntN(1500)) * time.Millisecond):
		}
	}
	s.network.delay.Store(0)
}

// killDatabase kills the Postgres, which is started again by whoever keeps it.
func (s *soak) killDatabase() {
	data := filepath.Join(s.data, "postgres")
	if _, err := os.Stat(filepath.Join(data, "postmaster.pid")); err != nil {
		return // it is down already
	}
	_ = syscall.Kill(serverPid(s.t, data), syscall.SIGKILL)
}

// jump sets the clock of a tablet wrong, by up to half a year.
func (s *soak) jump(random *rand.Rand) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if len(s.contests) == 0 {
		return
	}
	all := s.contests[random.IntN(len(s.contests))].tablets()
	all[random.IntN(len(all))].clock.Store(int64(random.IntN(365)-182) * 24 * int64(time.Hour))
}

// A disk is a small one, which can be filled.
type disk struct {
	t   testing.TB
	dir string
}

// smallDisk mounts one at a folder, for which it needs to be root: nil where that
// cannot be done.
func smallDisk(t testing.TB, dir string) *disk {
	t.Helper()
	if err := os.MkdirAll(dir, 0o711); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size=768m,mode=711"); err != nil {
		t.Logf("no disk will be full, since none can be mounted: %v", err)
		return nil
	}
	t.Cleanup(func() { _ = syscall.Unmount(dir, syscall.MNT_DETACH) })
	return &disk{t, dir}
}

// fullFor is how long the disk is full.
const fullFor = 2 * time.Second

// fill leaves no byte on the disk, for a while.
func (d *disk) fill(ctx context.Context) {
	path := filepath.Join(d.dir, "filling")
	file, err := os.Create(path)
	if err != nil {
		return // it is full
	}
	defer os.RemoveAll(path)
	defer file.Close()
	for piece := make([]byte, 1<<20); len(piece) > 0; {
		if _, err := file.Write(piece); errors.Is(err, syscall.ENOSPC) {
			piece = piece[:len(piece)/2]
		}
	}
	select {
	case <-ctx.Done():
	case <-time.After(fullFor):
	}
}
