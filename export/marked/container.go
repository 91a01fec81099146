package marked

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"strings"
)

// container is a workbook as a zip file of parts, of which some get another
// content and some are new. All others are copied as they are packed.
type container struct {
	limits  Limits
	reader  *zip.Reader
	parts   map[string]*zip.File // by folded name
	changed map[string][]byte    // by the name as written
	added   []string             // in the order of their adding
}

var (
	errNoWorkbook = errors.New("this file is not an .xlsx or .xlsm workbook")
	errTooLarge   = errors.New("it is larger than what is marked")
)

// open reads the directory, and every part once to its end: a copy of a damaged
// workbook would be taken for our damage.
func open(content []byte, limits Limits) (*container, error) {
	c, err := directory(content, limits)
	if err != nil {
		return nil, err
	}
	left := limits.UnzippedBytes
	tags := &tagCount{left: limits.Tags}
	for _, f := range c.reader.File {
		n, err := drain(f, left, tags)
		if err != nil {
			return nil, err
		}
		left -= n
	}
	return c, nil
}

func directory(content []byte, limits Limits) (*container, error) {
	r, err := zip.NewReader(bytes.NewReader(content), int64(len(content)))
	if err != nil {
		return nil, errNoWorkbook
	}
	c := &container{limits: limits, reader: r, parts: make(map[string]*zip.File, len(r.File)), changed: make(map[string][]byte)}
	for _, f := range r.File {
		name := fold(f.Name)
		if _, twice := c.parts[name]; twice {
			return nil, fmt.Errorf("its part %q is in it twice", f.Name)
		}
		c.parts[name] = f
	}
	return c, nil
}

// drain reads a part to its end, where its checksum is compared.
func drain(f *zip.File, left int64, tags *tagCount) (int64, error) {
	r, err := f.Open()
	if err != nil {
		return 0, fmt.Errorf("its part %q is damaged", f.Name)
	}
	defer r.Close() //nolint:errcheck // reading only
	n, err := io.Copy(tags.of(f.Name), io.LimitReader(r, left+1))
	switch {
	case err != nil:
		return n, fmt.Errorf("its part %q is damaged", f.Name)
	case n > left, tags.left < 0:
		return n, errTooLarge
	}
	return n, nil
}

// tagCount counts what an XML reader would have to hold: a sheet of empty cells
// packs to next to nothing.
type tagCount struct{ left int }

func (t *tagCount) of(part string) io.Writer {
	if strings.HasSuffix(fold(part), ".xml") {
		return t
	}
	return io.Discard
}

func (t *tagCount) Write(p []byte) (int, error) {
	t.left -= bytes.Count(p, []byte("<"))
	return len(p), nil
}

// fold makes names of parts comparable: they ignore case.
func fold(name string) string {
	return strings.TrimPrefix(strings.ToLower(strings.ReplaceAll(name, `\`, "/")), "/")
}

// has reports whether there is a part of the name.
func (c *container) has(name string) bool {
	_, ok := c.parts[fold(name)]
	return ok
}

// read returns the content of a part, as it was in the beginning.
func (c *container) read(name string) ([]byte, error) {
	f, ok := c.parts[fold(name)]
	if !ok || f == nil {
		return nil, fmt.Errorf("its part %q is missing", name)
	}
	r, err := f.Open()
	if err != nil {
		return nil, err
	}
	defer r.Close() //nolint:errcheck // reading only
	return io.ReadAll(io.LimitReader(r, c.limits.UnzippedBytes))
}

// document reads a part as XML down to a depth.
func (c *container) document(name string, depth int) (*document, error) {
	data, err := c.read(name)
	if err != nil {
		return nil, err
	}
	return parse(name, data, depth)
}

// write gives a part another content, or adds it.
func (c *container) write(name string, data []byte) {
	if f := c.parts[fold(name)]; f != nil {
		c.changed[f.Name] = data
		return
	}
	name = strings.TrimPrefix(name, "/")
	if _, again := c.changed[name]; !again {
		c.added = append(c.added, name)
		c.parts[fold(name)] = nil
	}
	c.changed[name] = data
}

// save writes a document back when it has changed.
func (c *container) save(d *document) {
	if d.changed() {
		c.write(d.part, d.bytes())
	}
}

// free returns the first name of a pattern with a number that no part has.
func (c *container) free(pattern string) string {
	for n := 1; ; n++ {
		if name := fmt.Sprintf(pattern, n); !c.has(name) {
			return name
		}
	}
}

// bytes packs the workbook: parts keep their order, new ones come last. Those that
// were written are packed by a method of archive/zip.
func (c *container) bytes(method uint16) ([]byte, error) {
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	for _, f := range c.reader.File {
		data, changed := c.changed[f.Name]
		if !changed {
			if err := w.Copy(f); err != nil {
				return nil, err
			}
			continue
		}
		if err := pack(w, f.Name, data, method); err != nil {
			return nil, err
		}
	}
	for _, name := range c.added {
		if err := pack(w, name, c.changed[name], method); err != nil {
			return nil, err
		}
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

func pack(w *zip.Writer, name string, data []byte, method uint16) error {
	part, err := w.CreateHeader(&zip.FileHeader{Name: name, Method: method})
	if err != nil {
		return err
	}
	_, err = part.Write(data)
	return err
}
