package cache

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
)

// migrations bring an empty database, step by step, to the newest form. A step
// once released never changes; a new form is a new step.
func migrations() []string {
	return []string{
		`CREATE TABLE reading (key BLOB PRIMARY KEY, seen INTEGER NOT NULL, sum BLOB NOT NULL, body BLOB NOT NULL)`,
		`CREATE TABLE copy (path TEXT PRIMARY KEY, size INTEGER NOT NULL, modified INTEGER NOT NULL, hash TEXT NOT NULL)`,
		`CREATE TABLE output (name TEXT PRIMARY KEY, input TEXT NOT NULL, id TEXT NOT NULL, content TEXT NOT NULL)`,
		`ALTER TABLE output ADD COLUMN file TEXT NOT NULL DEFAULT ''`,
	}
}

var errNewer = errors.New("it was written by a newer version")

// migrate takes the database's lock and runs the steps it has not had.
func migrate(db *sql.DB) (err error) {
	ctx := context.Background()
	conn, err := db.Conn(ctx)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, conn.Close()) }()
	if _, err := conn.ExecContext(ctx, "BEGIN EXCLUSIVE"); err != nil {
		return err
	}
	if err := steps(ctx, conn); err != nil {
		_, undo := conn.ExecContext(ctx, "ROLLBACK")
		return errors.Join(err, undo)
	}
	_, err = conn.ExecContext(ctx, "COMMIT")
	return err
}

func steps(ctx context.Context, conn *sql.Conn) error {
	all, done := migrations(), 0
	if err := conn.QueryRowContext(ctx, "PRAGMA user_version").Scan(&done); err != nil {
		return err
	}
	if done > len(all) {
		return errNewer
	}
	for i, step := range all[done:] {
		if _, err := conn.ExecContext(ctx, step); err != nil {
			return fmt.Errorf("step %d: %w", done+i+1, err)
		}
	}
	_, err := conn.ExecContext(ctx, fmt.Sprintf("PRAGMA user_version = %d", len(all)))
	return err
}
