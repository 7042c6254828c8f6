package main

import (
	"context"
	"fmt"
	"io"
	"log/slog"
	"os"
	"sync"
	"time"

	"github.com/google/uuid"
	"github.com/spf13/cobra"

	"halfpoint/cmd/demo"
	"halfpoint/db"
	"halfpoint/db/cluster"
)

// figureTime is about how long a figure is flown, gaps between flights included.
const figureTime = 12 * time.Second

// newDemoCommand serves an invented contest.
func newDemoCommand() *cobra.Command {
	var speed float64
	cmd := &cobra.Command{
		Use:   "demo",
		Short: "Serve an invented contest, half flown, whose judges go on grading",
		Long: `Serves an invented contest that is half flown, and grades the rest of it with
simulated judges, so that the screens move. Everything is kept in a temporary
folder, which goes when the demo ends, or in the one that --data names, where
the contest goes on at the next start.

Its people, clubs, aeroplanes and sequences are made up. Nothing here says that
a sequence can be flown safely: that is for a contest's rules, the flight
manual, the officials and the authorities.`,
		Example: `  halfpoint demo

  # a figure every two seconds, for everyone in the room
  halfpoint demo --speed 6 --listen 0.0.0.0:8080`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error { return runDemo(cmd, speed) },
	}
	register(cmd)
	preset(cmd, settingLog, "warn") // a line for each request would push the links off the screen
	cmd.Flags().Float64Var(&speed, "speed", 12, "how many times faster than a contest the judges grade; 0 for as fast as it goes")
	return cmd
}

func runDemo(cmd *cobra.Command, speed float64) error {
	c, err := readConfig(cmd, os.LookupEnv)
	if err != nil {
		return err
	}
	if speed < 0 {
		return fmt.Errorf("--speed %v: 0 for as fast as it goes, 1 for a contest's own pace, or more", speed)
	}
	if err := startLog(cmd.ErrOrStderr(), c.log); err != nil {
		return err
	}
	return serveDemo(cmd.Context(), c, cmd.Flags().Changed(settingData.flag), speed, cmd.OutOrStdout())
}

// serveDemo serves the demo until ctx is done, out of a folder of its own
// unless one is kept.
func serveDemo(ctx context.Context, c *config, keep bool, speed float64, stdout io.Writer) error {
	if !keep {
		folder, err := cluster.TempDir("halfpoint-demo-")
		if err != nil {
			return err
		}
		defer os.RemoveAll(folder)
		c.data = folder
	}
	var judges sync.WaitGroup
	defer judges.Wait()
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	return serve(ctx, c, func(service *running) {
		judges.Go(func() { judgeDemo(ctx, service, speed, stdout) })
	})
}

// judgeDemo says where the contest is to be seen and flies it to its end.
func judgeDemo(ctx context.Context, service *running, speed float64, stdout io.Writer) {
	made, err := makeDemo(ctx, service.db)
	switch {
	case ctx.Err() != nil:
		return
	case err != nil:
		slog.Error("the demo's contest could not be made", "error", err)
		return
	}
	made.printLinks(stdout, service.address)
	line := &demo.Line{DB: service.db, Contest: made.contest}
	if speed > 0 {
		line.Figure = time.Duration(float64(figureTime) / speed)
	}
	switch err := line.Run(ctx); {
	case ctx.Err() != nil:
	case err == nil:
		fmt.Fprintln(stdout, "Every flight is flown; the contest stays to be looked at.")
	default:
		slog.Error("the demo's judges stopped", "error", err)
	}
}

// A madeDemo is a demonstration with those who may try it.
type madeDemo struct {
	contest uuid.UUID
	people  []demoPerson
	tablets []demoTablet
}

func makeDemo(ctx context.Context, d *db.DB) (made madeDemo, err error) {
	if made.contest, err = demoContest(ctx, d); err != nil {
		return made, err
	}
	if made.people, err = demoPeople(ctx, d, made.contest); err != nil {
		return made, err
	}
	made.tablets, err = demoTablets(ctx, d, made.contest)
	return made, err
}

// mostContests is how many there may be in a demo that is kept for its own to be
// found again.
const mostContests = 1000

// demoContest finds the contest of an earlier start or makes it.
func demoContest(ctx context.Context, d *db.DB) (uuid.UUID, error) {
	there, err := d.Contests(ctx, db.ContestQuery{Limit: mostContests})
	if err != nil {
		return uuid.Nil, err
	}
	if n := len(there); n > 0 {
		return there[n-1].ID, nil // those made after it are whoever tries the demo's
	}
	bundle, err := demo.Contest()
	if err != nil {
		return uuid.Nil, err
	}
	contest, err := d.Import(ctx, bundle, db.ImportOptions{Opened: db.Live})
	if err != nil {
		return uuid.Nil, err
	}
	return contest, demo.Prepare(ctx, d, contest)
}

// printLinks writes where each role finds the contest.
func (m *madeDemo) printLinks(w io.Writer, address string) {
	fmt.Fprintf(w, "\nAn invented contest, half flown. Its judges go on grading.\n\n")
	fmt.Fprintf(w, "  for everyone      %s/contests/%s\n", address, m.contest)
	for _, p := range m.people {
		fmt.Fprintf(w, "  for the %-9s %s\n", p.role, link(address, "/sign-in?to=/office", p.link))
	}
	fmt.Fprintf(w, "  for programs      %s/api/v1/docs\n\nThe links of director and office sign in, each once. After that:\n\n", address)
	for _, p := range m.people {
		fmt.Fprintf(w, "  %-22s %s\n", p.email, p.password)
	}
	fmt.Fprintf(w, "\nOn the line, each once and for a browser of its own; the simulated one then\nleaves it to you:\n\n")
	for _, t := range m.tablets {
		fmt.Fprintf(w, "  %-17s %s\n", t.name, link(address, "/pair", t.link))
	}
	fmt.Fprintf(w, "\nStop it with Ctrl-C.\n\n")
}
