// Package cache keeps on the local disk what was read from which content, so
// that a restart reads nothing again. It is a cache and nothing else: delete it,
// or go to another machine, and the same results come out, later.
package cache

import (
	"bytes"
	"context"
	"crypto/sha256"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"time"

	"github.com/fxamacker/cbor/v2"
	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/ingest"
)

// ErrInUse says that another process on this machine has the cache open.
var ErrInUse = errors.New("another flowshelf on this machine has the folder in hand")

// Cache is one folder's cache, held by one process at a time. It is safe for
// concurrent use.
type Cache struct {
	path   string
	reader string
	db     *sql.DB

	mu      sync.Mutex
	trouble error // the first fault since it was asked for
	broken  bool  // to be made anew
}

// fileName is the database's name in its folder.
const fileName = "state.db"

// A reading that nobody asked for is kept for keepDays. That it was asked for is
// noted once in noteDays.
const keepDays, noteDays = 60, 7

// today is asked for each time: a service runs for months.
func today() int64 { return time.Now().Unix() / (24 * 60 * 60) }

// Open opens the cache in an existing local folder, or makes it. Reader names
// the program that reads: what another one read is not recalled. Lost says why
// an earlier cache could not be used and was made anew; it is nil normally. The
// error is ErrInUse, or that of a folder that cannot be written.
func Open(folder, reader string) (c *Cache, lost, err error) {
	c = &Cache{path: filepath.Join(folder, fileName), reader: reader}
	err = c.open()
	if err == nil || errors.Is(err, ErrInUse) {
		return c, nil, err
	}
	lost = err
	if err := c.remove(); err != nil {
		return nil, lost, err
	}
	if err := c.open(); err != nil {
		return nil, lost, err
	}
	return c, lost, nil
}

// open takes the file for this process: an exclusive lock is held until the
// process ends, however it ends. Write-ahead logging makes a kill harmless.
func (c *Cache) open() error {
	db, err := sql.Open("sqlite", "file:"+filepath.ToSlash(c.path)+
		"?_pragma=busy_timeout(2000)&_pragma=locking_mode(EXCLUSIVE)&_pragma=journal_mode(WAL)&_pragma=synchronous(NORMAL)")
	if err != nil {
		return err
	}
	db.SetMaxOpenConns(1)
	if err = migrate(db); err == nil {
		_, err = db.ExecContext(context.Background(), "DELETE FROM reading WHERE seen < ?", today()-keepDays)
	}
	if err != nil {
		return errors.Join(plain(err), db.Close())
	}
	c.db = db
	return nil
}

// remove deletes the database and the files beside it.
func (c *Cache) remove() error {
	var all error
	for _, beside := range []string{"", "-wal", "-shm", "-journal"} {
		if err := os.Remove(c.path + beside); err != nil && !errors.Is(err, os.ErrNotExist) {
			all = errors.Join(all, err)
		}
	}
	return all
}

// Close lets go of the cache. One that turned out damaged is deleted.
func (c *Cache) Close() error {
	err := c.db.Close()
	if c.broken {
		return errors.Join(err, c.remove())
	}
	return err
}

// Trouble returns the first fault since it was last called: a full disk, say.
// Nothing is lost by it but time.
func (c *Cache) Trouble() error {
	c.mu.Lock()
	defer c.mu.Unlock()
	err := c.trouble
	c.trouble = nil
	return err
}

func (c *Cache) fault(doing string, err error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.trouble == nil {
		c.trouble = fmt.Errorf("%s: %w", doing, err)
	}
	c.broken = c.broken || damaged(err)
}

// key is what a reading is found by.
func (c *Cache) key(key string) []byte {
	sum := sha256.Sum256([]byte(c.reader + "|" + key))
	return sum[:]
}

// Recall returns what was kept under a key. A database keeps no checksums, and a
// wrong figure must not come out of it, so each reading carries its own: one
// that does not fit is as good as none.
func (c *Cache) Recall(key string) (ingest.FileRead, bool) {
	var sum, body []byte
	var seen int64
	row := c.db.QueryRowContext(context.Background(), "SELECT sum, body, seen FROM reading WHERE key = ?", c.key(key))
	switch err := row.Scan(&sum, &body, &seen); {
	case errors.Is(err, sql.ErrNoRows):
		return ingest.FileRead{}, false
	case err != nil:
		c.fault("recall a reading", err)
		return ingest.FileRead{}, false
	}
	var read ingest.FileRead
	if want := sha256.Sum256(body); !bytes.Equal(sum, want[:]) || cbor.Unmarshal(body, &read) != nil {
		c.fault("recall a reading", errors.New("it is not what was kept; the file is read again"))
		return ingest.FileRead{}, false
	}
	if now := today(); now-seen >= noteDays {
		c.exec("note a reading's use", "UPDATE reading SET seen = ? WHERE key = ?", now, c.key(key))
	}
	share(read.Records.Tests)
	return read, true
}

// share has equal texts of a file's readings share their bytes. When they were
// read they did; decoded, each figure has its own names of file, sheet and unit.
func share(tests []head.Test) {
	known := make(map[string]string)
	one := func(text *string) {
		if is, ok := known[*text]; ok {
			*text = is
			return
		}
		known[*text] = *text
	}
	trace := func(t *source.Trace) {
		for _, text := range []*string{&t.At.File, &t.At.Sheet, &t.Unit, &t.Answered} {
			one(text)
		}
		for i := range t.Steps {
			one(&t.Steps[i])
		}
	}
	for i := range tests {
		for j := range tests[i].Readings {
			r := &tests[i].Readings[j]
			trace(&r.Lift.Trace)
			trace(&r.Flow.Trace)
			if r.Row != nil {
				trace(&r.Row.Trace)
			}
		}
	}
}

// Keep stores what was read under a key.
func (c *Cache) Keep(key string, read ingest.FileRead) {
	body, err := encoding().Marshal(read)
	if err != nil {
		c.fault("keep a reading", err)
		return
	}
	sum := sha256.Sum256(body)
	c.exec("keep a reading", "INSERT OR REPLACE INTO reading (key, seen, sum, body) VALUES (?, ?, ?, ?)",
		c.key(key), today(), sum[:], body)
}

func (c *Cache) exec(doing, query string, args ...any) {
	if _, err := c.db.ExecContext(context.Background(), query, args...); err != nil {
		c.fault(doing, err)
	}
}

// encoding keeps times to the nanosecond and in their zone.
func encoding() cbor.EncMode {
	mode, err := cbor.EncOptions{Time: cbor.TimeRFC3339Nano, NaNConvert: cbor.NaNConvertNone, InfConvert: cbor.InfConvertNone}.EncMode()
	if err != nil {
		panic("cache: " + err.Error()) //nolint:forbidigo // our own options are wrong, which every test of this package shows
	}
	return mode
}

func damaged(err error) bool {
	var fault *sqlite.Error
	return errors.As(err, &fault) && (fault.Code()&0xff == sqlite3.SQLITE_CORRUPT || fault.Code()&0xff == sqlite3.SQLITE_NOTADB)
}

func plain(err error) error {
	var fault *sqlite.Error
	if errors.As(err, &fault) && (fault.Code()&0xff == sqlite3.SQLITE_BUSY || fault.Code()&0xff == sqlite3.SQLITE_LOCKED) {
		return ErrInUse
	}
	return err
}
