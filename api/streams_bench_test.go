package api_test

import (
	"bufio"
	"fmt"
	"net"
	"os"
	"os/exec"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"halfpoint/db"
)

// So many follow one contest, while a grade comes in every second, so many times.
const (
	streams      = 5_000
	streamGrades = 10
	gradeEvery   = time.Second
)

// BenchmarkStreams has a grade entered over HTTP every second, and tells how long
// it takes from its sending until all of 5,000 event streams have told of it, and
// what a stream takes of the process's memory. Asked for is a second. Whoever
// follows is a process of its own, so that its memory is not counted.
func BenchmarkStreams(b *testing.B) {
	raiseFiles(b, 2*streams)
	s := start(b)
	judge := benchTablet(s)
	for b.Loop() {
		before := memory()
		said := followAll(b, s.url+"/api/v1/contests/"+judge.contest.String()+"/events")
		if word := <-said; word != "open" {
			b.Fatalf("whoever follows says %q", word)
		}
		b.ReportMetric(float64(memory()-before)/streams/1000, "kB/stream")
		took := gradesToAll(b, judge, said)
		slices.Sort(took)
		b.ReportMetric(float64(took[len(took)/2].Microseconds())/1000, "p50-ms")
		b.ReportMetric(float64(took[len(took)-1].Microseconds())/1000, "worst-ms")
	}
}

// gradesToAll enters a grade at each tick and waits until all have been told.
func gradesToAll(b *testing.B, judge *tablet, said <-chan string) []time.Duration {
	var took []time.Duration
	tick := time.NewTicker(gradeEvery)
	defer tick.Stop()
	for range streamGrades {
		<-tick.C
		sent := time.Now()
		if err := judge.enter(); err != nil {
			b.Fatal(err)
		}
		head, err := judge.db.Head(b.Context(), judge.contest)
		if err != nil {
			b.Fatal(err)
		}
		took = append(took, toldAt(b, said, head.Version).Sub(sent))
	}
	return took
}

// toldAt waits until all have been told of a version, and says when that was.
func toldAt(b *testing.B, said <-chan string, version int64) time.Time {
	for word := range said {
		var told, at int64
		if _, err := fmt.Sscan(word, &told, &at); err == nil && told >= version {
			return time.Unix(0, at)
		}
	}
	b.Fatal("whoever follows has ended")
	return time.Time{}
}

func benchTablet(s *service) *tablet {
	bundle := unflownBundle(3, 40, 10)
	l := lineOf(s, s.imports(bundle, db.Live))
	return l.tablet("judge", l.panel[0].Judge.ID)
}

// memory is what the process holds after it has cleaned up, in bytes.
func memory() int64 {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return int64(m.HeapInuse + m.StackInuse)
}

func raiseFiles(b *testing.B, wanted uint64) {
	var limit syscall.Rlimit
	if err := syscall.Getrlimit(syscall.RLIMIT_NOFILE, &limit); err != nil {
		b.Fatal(err)
	}
	limit.Cur = min(max(limit.Cur, wanted), limit.Max)
	if err := syscall.Setrlimit(syscall.RLIMIT_NOFILE, &limit); err != nil || limit.Cur < wanted {
		b.Skipf("%d files may be open, %d are needed", limit.Cur, wanted)
	}
}

// followsAt is where this program, started again, follows instead of testing.
const followsAt = "HALFPOINT_TEST_FOLLOWS"

// followAll starts whoever follows, and gives what it says line by line.
func followAll(b *testing.B, url string) <-chan string {
	follower := exec.CommandContext(b.Context(), os.Args[0])
	follower.Env = append(os.Environ(), followsAt+"="+url)
	follower.Stderr = os.Stderr
	out, err := follower.StdoutPipe()
	if err == nil {
		err = follower.Start()
	}
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { _ = follower.Process.Kill(); _ = follower.Wait() })
	said := make(chan string, streamGrades)
	go func() {
		defer close(said)
		for read := bufio.NewScanner(out); read.Scan(); {
			said <- read.Text()
		}
	}()
	return said
}

// A word is that a stream has told of a version after another one.
type word struct{ after, version int64 }

// followAt opens all streams, says so, and then says of each version when all of
// them have told of it or of a later one.
func followAt(url string) error {
	words := make(chan word, streams)
	for i := range streams {
		if err := followOne(i, strings.TrimPrefix(url, "http://"), words); err != nil {
			return err
		}
	}
	told := map[int64]int{}
	for w := range words {
		for v := w.after + 1; v <= w.version; v++ {
			if told[v]++; told[v] == streams {
				fmt.Println(v, time.Now().UnixNano())
			}
		}
	}
	return nil
}

// followOne opens a stream, from an address for each thousand of them, and passes
// on what it tells after the version that it begins with.
func followOne(i int, hostAndPath string, words chan<- word) error {
	host, path, _ := strings.Cut(hostAndPath, "/")
	dialer := net.Dialer{LocalAddr: &net.TCPAddr{IP: net.IPv4(127, 2, 0, byte(1+i/1_000))}}
	stream, err := dialer.Dial("tcp", host)
	if err != nil {
		return err
	}
	fmt.Fprintf(stream, "GET /%s HTTP/1.1\r\nHost: %s\r\nAccept: text/event-stream\r\nAccept-Encoding: gzip\r\n\r\n", path, host)
	read := bufio.NewReaderSize(stream, 1_024)
	last, err := nextVersion(read)
	if err != nil {
		return fmt.Errorf("stream %d: %w", i, err)
	}
	if i == streams-1 {
		fmt.Println("open")
	}
	go func() {
		for {
			version, err := nextVersion(read)
			if err != nil {
				return
			}
			words <- word{last, version}
			last = version
		}
	}()
	return nil
}

// nextVersion reads on to the id of an event, which is an epoch and a version.
func nextVersion(read *bufio.Reader) (int64, error) {
	for {
		line, err := read.ReadString('\n')
		if err != nil {
			return 0, err
		}
		if id, ok := strings.CutPrefix(strings.TrimSpace(line), "id: "); ok {
			return strconv.ParseInt(id[strings.LastIndex(id, ":")+1:], 10, 64)
		}
	}
}
