package db

import (
	"context"
	"errors"
	"fmt"

	"github.com/jackc/pgx/v5"
)

// What keeps a database from being restored into, for errors.Is.
var (
	ErrNotEmpty = errors.New("the database holds contests: restore into an empty one")
	ErrInUse    = errors.New("a service is using the database: stop it first")
)

// Clear makes a database that holds no contest an empty one, for a backup to be
// restored into: whatever else is in its schema public is gone. One that holds a
// contest, or that a service is using, is refused and stays as it is.
func Clear(ctx context.Context, url string) error {
	conn, err := pgx.Connect(ctx, url)
	if err != nil {
		return fmt.Errorf("reaching the database: %w", translate(err))
	}
	defer conn.Close(context.WithoutCancel(ctx))
	err = pgx.BeginFunc(ctx, conn, func(tx pgx.Tx) error { return clearSchema(ctx, tx) })
	if err != nil {
		return fmt.Errorf("emptying the database: %w", translate(err))
	}
	return nil
}

func clearSchema(ctx context.Context, tx pgx.Tx) error {
	for _, refuse := range []func(context.Context, pgx.Tx) error{refuseInUse, refuseContests} {
		if err := refuse(ctx, tx); err != nil {
			return err
		}
	}
	_, err := tx.Exec(ctx, "DROP SCHEMA public CASCADE; CREATE SCHEMA public")
	return err
}

func refuseInUse(ctx context.Context, tx pgx.Tx) error {
	busy, err := value[bool](ctx, tx, `
		SELECT EXISTS (
			SELECT
			FROM pg_stat_activity
			WHERE datname = current_database()
				AND application_name = 'halfpoint'
		)`, nil)
	if err == nil && busy {
		err = ErrInUse
	}
	return err
}

func refuseContests(ctx context.Context, tx pgx.Tx) error {
	there, err := value[bool](ctx, tx, "SELECT to_regclass('public.contest') IS NOT NULL", nil)
	if err == nil && there {
		there, err = value[bool](ctx, tx, "SELECT EXISTS (SELECT FROM public.contest)", nil)
	}
	if err == nil && there {
		err = ErrNotEmpty
	}
	return err
}
