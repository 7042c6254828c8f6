package main

import (
	"context"
	"crypto/ed25519"
	"crypto/tls"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"os"
	"sync"
	"time"

	"github.com/spf13/cobra"

	"halfpoint/api"
	"halfpoint/db"
	"halfpoint/db/shelf"
)

// The service's time with a connection. What takes longer by its nature, the
// events and the import of a bundle, sets its own.
const (
	headerTime = 5 * time.Second
	readTime   = 10 * time.Second
	writeTime  = 30 * time.Second
	idleTime   = 2 * time.Minute

	startTime = time.Minute     // to start the private Postgres, or reach another, and to migrate
	againTime = time.Second / 2 // between two tries to reach it
)

const serveExample = `  halfpoint serve

  # for a whole field, with a certificate and a Postgres of its own
  HALFPOINT_DATABASE=postgres://halfpoint@db.example.org/halfpoint \
    halfpoint serve --listen 0.0.0.0:443 --host contest.example.org --tls-cert chain.pem --tls-key key.pem

  # on a field without the Internet: the link that is printed says how tablets come to trust it
  halfpoint serve --listen 0.0.0.0:443 --tls-own judging.home.arpa`

// newServeCommand runs the service.
func newServeCommand() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "serve",
		Short: "Run the service",
		Long: `Runs the service until it is told to stop (SIGINT or SIGTERM). It keeps
everything in Postgres: in the one that --database names, or in a private one
that it starts in the data folder and stops again.

The first start prints a link that makes the first account, which owns the
server. Beyond this machine people sign in, and a token is taken, over HTTPS
only.`,
		Example: serveExample,
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			c, err := readConfig(cmd, os.LookupEnv)
			if err != nil {
				return err
			}
			if err := startLog(cmd.ErrOrStderr(), c.log); err != nil {
				return err
			}
			return serve(cmd.Context(), c, func(r *running) { offerFirst(cmd.Context(), r, cmd.OutOrStdout()) })
		},
	}
	register(cmd)
	return cmd
}

// running is a service that answers.
type running struct {
	db      *db.DB
	url     string // where it is reached from this machine
	address string // where others reach it, for links
	token   string // the office's
}

// serve runs the service until ctx is done. It calls started once it answers.
func serve(ctx context.Context, c *config, started func(*running)) error {
	token, err := officeToken(c)
	if err != nil {
		return err
	}
	end := sync.OnceValue(func() time.Time { return time.Now().Add(endTime) }) // one for all, from the first that asks
	d, at, shutBy, err := openDatabase(ctx, c)
	if err != nil {
		return err
	}
	defer func() { shutBy(end()) }()
	standby, shutStandbyBy, err := c.openStandby(ctx)
	if err != nil {
		return err
	}
	defer func() { shutStandbyBy(end()) }()
	key, kept, err := preparePublications(ctx, c, d)
	if err != nil {
		return err
	}
	var beside sync.WaitGroup
	defer beside.Wait()
	ctx, stop := context.WithCancel(ctx)
	defer stop()
	beside.Go(func() { c.keepBackups(ctx, at) })
	encrypted, err := c.encrypt(time.Now())
	if err != nil {
		return err
	}
	return c.listenWith(ctx, encrypted, api.Options{
		DB: d, Standby: standby, OfficeToken: token, Hosts: c.hosts,
		Signer: db.Signer{Key: key, Program: programName()}, Shelf: kept, LastBackup: c.lastBackup(),
	}, started, end)
}

// listenWith listens and answers with a service of these options, to which it
// adds what depends on where it listens. When ctx is done, all is to be over by
// the end.
func (c *config) listenWith(ctx context.Context, encrypted encryption, o api.Options, started func(*running), end func() time.Time) error {
	listener, err := new(net.ListenConfig).Listen(ctx, "tcp", c.listen)
	if err != nil {
		return fmt.Errorf("listening: %w", err)
	}
	here := c.url(listener.Addr())
	o.Addresses, o.Pages = c.addresses(here), encrypted.pages
	service, err := api.New(o)
	if err != nil {
		return errors.Join(err, listener.Close())
	}
	slog.Info("serving", "url", here, "contract", here+"/api/v1/docs")
	encrypted.announce(c.address(here))
	started(&running{db: o.DB, url: here, address: c.address(here), token: o.OfficeToken})
	return answer(ctx, listener, encrypted.config, service, end)
}

// preparePublications finds the key that publications are signed with, and puts
// those on the shelf that are not there.
func preparePublications(ctx context.Context, c *config, d *db.DB) (key ed25519.PrivateKey, kept *shelf.Shelf, err error) {
	path := keyFile(c.keyFile, c.data)
	if key, err = signingKey(path); err != nil {
		return nil, nil, err
	}
	if kept, err = shelf.Open(shelfDir(c.publications, c.data)); err != nil {
		return nil, nil, err
	}
	slog.Info("publications are signed with a key", "path", path, "fingerprint", fingerprint(key))
	return key, kept, kept.Fill(ctx, d)
}

// openDatabase opens the database, within the time for a start, and says where
// it is; shutBy closes it. One that cannot be reached now is waited for: machines that
// are switched on together, and one that takes another's place, need a while.
func openDatabase(ctx context.Context, c *config) (d *db.DB, at string, shutBy func(time.Time), err error) {
	ctx, cancel := context.WithTimeout(ctx, startTime)
	defer cancel()
	where := databaseFlags{url: c.database, data: c.data}
	for {
		d, at, shutBy, err = where.openAt(ctx)
		if !errors.Is(err, db.ErrUnavailable) {
			return d, at, shutBy, err
		}
		slog.Warn("the database cannot be reached yet", "error", err)
		select {
		case <-ctx.Done():
			return nil, "", nil, err
		case <-time.After(againTime):
		}
	}
}

// openStandby opens the standby that spectators read from, where one is named.
func (c *config) openStandby(ctx context.Context) (d *db.DB, shutBy func(time.Time), err error) {
	if c.standby == "" {
		return nil, func(time.Time) {}, nil
	}
	if d, err = db.OpenStandby(ctx, c.standby); err != nil {
		return nil, nil, err
	}
	return d, func(end time.Time) { closeBy(d, end) }, nil
}

// answer answers requests until ctx is done. Then it accepts no more, ends the
// event streams and lets the other requests finish, as long as the database has
// its time before the end.
func answer(ctx context.Context, listener net.Listener, encrypted *tls.Config, service *api.Service, end func() time.Time) error {
	following, stopFollowing := context.WithCancel(context.WithoutCancel(ctx))
	defer stopFollowing()
	server := &http.Server{
		Handler: service, TLSConfig: encrypted, ReadHeaderTimeout: headerTime, ReadTimeout: readTime, WriteTimeout: writeTime, IdleTimeout: idleTime,
		ErrorLog: slog.NewLogLogger(slog.Default().Handler(), slog.LevelWarn),
	}
	server.RegisterOnShutdown(stopFollowing)
	followed, failed := make(chan struct{}), make(chan error, 1)
	go func() { defer close(followed); service.Follow(following) }()
	go func() { failed <- serveOn(server, listener) }()
	defer func() { stopFollowing(); <-followed }()

	select {
	case err := <-failed:
		return fmt.Errorf("serving: %w", err)
	case <-ctx.Done():
	}
	slog.Info("stopping")
	last, cancel := context.WithDeadline(context.WithoutCancel(ctx), end().Add(-closeTime))
	defer cancel()
	if err := server.Shutdown(last); err != nil {
		slog.Warn("some requests did not finish", "error", err)
		return errors.Join(server.Close())
	}
	return nil
}

func serveOn(server *http.Server, listener net.Listener) error {
	if server.TLSConfig != nil {
		return server.ServeTLS(listener, "", "")
	}
	return server.Serve(listener)
}

// url is where a listener is reached from this machine.
func (c *config) url(address net.Addr) string {
	scheme := "http"
	if c.isSecure() {
		scheme = "https"
	}
	host, port, err := net.SplitHostPort(address.String())
	if err != nil {
		return scheme + "://" + address.String()
	}
	if ip := net.ParseIP(host); ip != nil && ip.IsUnspecified() {
		host = "localhost"
	}
	return scheme + "://" + net.JoinHostPort(host, port)
}
