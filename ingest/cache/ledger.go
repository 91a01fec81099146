package cache

import (
	"context"
	"database/sql"
	"errors"
	"time"

	"flowshelf/ingest/watch"
)

// Copies returns what the mirror of the folder held when it was last written
// to. A fault is a Trouble, and the mirror is then filled anew.
func (c *Cache) Copies() []watch.Copy {
	rows, err := c.db.QueryContext(context.Background(), "SELECT path, size, modified, hash FROM copy ORDER BY path")
	if err != nil {
		c.fault("list the mirror", err)
		return nil
	}
	defer rows.Close() //nolint:errcheck // rows.Err tells
	var out []watch.Copy
	for rows.Next() {
		var one watch.Copy
		var modified int64
		if err := rows.Scan(&one.Path, &one.Size, &modified, &one.Hash); err != nil {
			c.fault("list the mirror", err)
			return nil
		}
		one.ModTime = time.Unix(0, modified)
		out = append(out, one)
	}
	if err := rows.Err(); err != nil {
		c.fault("list the mirror", err)
		return nil
	}
	return out
}

// Copied notes a file that the mirror has taken.
func (c *Cache) Copied(one watch.Copy) {
	c.exec("note a copy", "INSERT OR REPLACE INTO copy (path, size, modified, hash) VALUES (?, ?, ?, ?)",
		one.Path, one.Size, one.ModTime.UnixNano(), one.Hash)
}

// Dropped notes a file that the mirror no longer holds.
func (c *Cache) Dropped(path string) {
	c.exec("forget a copy", "DELETE FROM copy WHERE path = ?", path)
}

// Output is one workbook as it was last made: from what, and with which stamp.
type Output struct {
	Name    string
	Input   string // fingerprint of all that it was made from
	ID      string // the stamp inside it
	Content string
}

// Made returns the workbook of a name as this program last made it.
func (c *Cache) Made(name string) (Output, bool) {
	out := Output{Name: name}
	row := c.db.QueryRowContext(context.Background(), "SELECT input, id, content FROM output WHERE name = ? AND input != ''", c.reader+"|"+name)
	if err := row.Scan(&out.Input, &out.ID, &out.Content); err != nil {
		if !errors.Is(err, sql.ErrNoRows) {
			c.fault("recall a workbook", err)
		}
		return Output{}, false
	}
	return out, true
}

// Make notes a workbook as made. What is known of its file stays.
func (c *Cache) Make(o Output) {
	c.exec("note a workbook", `INSERT INTO output (name, input, id, content) VALUES (?, ?, ?, ?)
		ON CONFLICT (name) DO UPDATE SET input = excluded.input, id = excluded.id, content = excluded.content`,
		c.reader+"|"+o.Name, o.Input, o.ID, o.Content)
}

// Whole reports whether a workbook's file with a hash was found to be as this
// program wrote it.
func (c *Cache) Whole(name, hash string) bool {
	var file string
	row := c.db.QueryRowContext(context.Background(), "SELECT file FROM output WHERE name = ?", c.reader+"|"+name)
	if err := row.Scan(&file); err != nil {
		if !errors.Is(err, sql.ErrNoRows) {
			c.fault("recall a workbook's file", err)
		}
		return false
	}
	return file != "" && file == hash
}

// FoundWhole notes that hash, also of a workbook that this program has not made.
func (c *Cache) FoundWhole(name, hash string) {
	c.exec("note a workbook's file", `INSERT INTO output (name, input, id, content, file) VALUES (?, '', '', '', ?)
		ON CONFLICT (name) DO UPDATE SET file = excluded.file`,
		c.reader+"|"+name, hash)
}
