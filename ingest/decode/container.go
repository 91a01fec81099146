package decode

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"encoding/binary"
	"errors"
	"hash/crc32"
	"io"
	"math"
	"path"
	"slices"
	"sort"
	"strings"
	"sync"
)

// mostParts is the most entries accepted in one container; a workbook with two
// hundred sheets that all carry notes and pictures stays below it.
const mostParts = 10_000

// The signatures of the zip format: .ZIP File Format Specification (APPNOTE)
// 6.3.10, sections 4.3.7, 4.3.12 and 4.3.16.
const (
	localSignature   = "PK\x03\x04"
	centralSignature = "PK\x01\x02"
	endSignature     = "PK\x05\x06"
	localHeaderSize  = 30
)

// container is an opened zip file whose directory makes sense. archive/zip
// forgives what a spreadsheet must not be forgiven: it checks a part only when
// somebody reads it to the end, and takes a checksum of zero for "not set".
type container struct {
	content  []byte
	budget   *budget
	entries  map[string]entry // by folded name
	names    []string         // folded names, sorted
	verified map[string]bool
}

// inflater unpacks one part after the other.
type inflater interface {
	io.Reader
	flate.Resetter
}

// inflaters are used again: one has a window of 32 KB, more than most parts are
// long.
var inflaters = sync.Pool{New: func() any { return flate.NewReader(nil) }}

// entry is one part in the directory.
type entry struct {
	file           *zip.File
	offset, packed int64 // where the packed data are, and how many: within the file
	size           int64 // what they claim to unpack to
}

// openContainer reads the directory and checks that the entries lie one behind
// the other, each behind a header with the same name, and no name twice.
func openContainer(content []byte, b *budget) (*container, error) {
	if !hasZipEnd(content) {
		return nil, halfWritten("its end is missing")
	}
	if bytes.Count(content, []byte(centralSignature)) > mostParts {
		return nil, tooLarge("it has more than %d parts", mostParts)
	}
	directory, err := zip.NewReader(bytes.NewReader(content), int64(len(content)))
	if err != nil {
		return nil, halfWritten("its directory cannot be read")
	}
	c := &container{content: content, budget: b,
		entries: make(map[string]entry, len(directory.File)), verified: make(map[string]bool)}
	for _, file := range directory.File {
		if err := c.add(file); err != nil {
			return nil, err
		}
	}
	sort.Strings(c.names)
	return c, c.checkLayout()
}

// hasZipEnd looks for the record that ends a zip file. A comment of up to
// 65,535 bytes may follow its 22.
func hasZipEnd(content []byte) bool {
	return bytes.Contains(content[max(0, len(content)-65_557):], []byte(endSignature))
}

// fold makes part names comparable: they ignore case, and some writers use the
// backslash.
func fold(name string) string {
	return strings.TrimPrefix(strings.ToLower(strings.ReplaceAll(name, `\`, "/")), "/")
}

func (c *container) add(file *zip.File) error {
	name := fold(file.Name)
	if strings.HasSuffix(name, "/") && file.UncompressedSize64 == 0 {
		return nil
	}
	if name == "" || path.Clean(name) != name || strings.HasPrefix(name, "../") || strings.IndexByte(name, 0) >= 0 {
		return damaged("a part is called %s", quoted([]byte(file.Name)))
	}
	if _, twice := c.entries[name]; twice {
		return damaged("the part %s is in it twice", quoted([]byte(file.Name)))
	}
	if file.Flags&1 != 0 {
		return locked()
	}
	if file.Method != zip.Store && file.Method != zip.Deflate {
		return halfWritten("the part %s is packed in an unknown way", quoted([]byte(file.Name)))
	}
	offset, err := file.DataOffset()
	packed, size := file.CompressedSize64, file.UncompressedSize64
	if err != nil || packed > math.MaxInt32 || size > math.MaxInt64 || offset+int64(packed) > int64(len(c.content)) {
		return halfWritten("the part %s is not where the directory says", quoted([]byte(file.Name)))
	}
	c.entries[name] = entry{file, offset, int64(packed), int64(size)}
	c.names = append(c.names, name)
	return nil
}

// checkLayout refuses overlapping entries and directory names that differ from
// the names in front of the data.
func (c *container) checkLayout() error {
	ordered := make([]entry, 0, len(c.entries))
	for _, name := range c.names {
		ordered = append(ordered, c.entries[name])
	}
	sort.Slice(ordered, func(i, j int) bool { return ordered[i].offset < ordered[j].offset })
	end := int64(0)
	for _, e := range ordered {
		if e.offset < end || !hasHeader(c.content[end:e.offset], e.file.Name) {
			return halfWritten("the part %s is not where the directory says", quoted([]byte(e.file.Name)))
		}
		end = e.offset + e.packed
	}
	return nil
}

// hasHeader reports whether gap, the bytes between two entries' data, ends with
// a local header for the name.
func hasHeader(gap []byte, name string) bool {
	for at := len(gap); ; {
		at = bytes.LastIndex(gap[:at], []byte(localSignature))
		if at < 0 {
			return false
		}
		header := gap[at:]
		if len(header) < localHeaderSize {
			continue
		}
		nameSize := int(binary.LittleEndian.Uint16(header[26:]))
		extraSize := int(binary.LittleEndian.Uint16(header[28:]))
		if localHeaderSize+nameSize+extraSize == len(header) {
			return string(header[localHeaderSize:localHeaderSize+nameSize]) == name
		}
	}
}

// has reports whether the container holds a part.
func (c *container) has(name string) bool {
	_, ok := c.entries[fold(name)]
	return ok
}

// read unpacks one part and verifies its length and checksum.
func (c *container) read(name string) ([]byte, error) {
	e, ok := c.entries[fold(name)]
	if !ok {
		return nil, damaged("the part %s is missing", quoted([]byte(name)))
	}
	if err := c.claim(e); err != nil {
		return nil, err
	}
	data := make([]byte, e.size)
	return data, c.unpack(e, data)
}

// claim takes the unpacked size of an entry from the budget.
func (c *container) claim(e entry) error {
	// Deflate packs at most 1032 to 1, so a larger claim is false.
	if e.size > (e.packed+1)*1032 {
		return halfWritten("the part %s has a false length", quoted([]byte(e.file.Name)))
	}
	return c.budget.takeBytes(e.size)
}

// unpack reads the unpacked data through a buffer, again and again where that is
// shorter, and refuses packed bytes that do not give exactly what the directory
// says.
func (c *container) unpack(e entry, buffer []byte) error {
	source := bytes.NewReader(c.content[e.offset : e.offset+e.packed])
	unpacked := io.Reader(source)
	if e.file.Method == zip.Deflate {
		inflater, _ := inflaters.Get().(inflater)
		defer inflaters.Put(inflater)
		if err := inflater.Reset(source, nil); err != nil {
			return err
		}
		unpacked = inflater
	}
	sum, err := uint32(0), error(nil)
	for left := e.size; left > 0 && err == nil; left -= int64(len(buffer)) {
		buffer = buffer[:min(left, int64(len(buffer)))]
		_, err = io.ReadFull(unpacked, buffer)
		sum = crc32.Update(sum, crc32.IEEETable, buffer)
	}
	_, end := io.ReadFull(unpacked, make([]byte, 1))
	if err != nil || !errors.Is(end, io.EOF) || source.Len() > 0 || sum != e.file.CRC32 {
		return halfWritten("the part %s does not match its checksum", quoted([]byte(e.file.Name)))
	}
	c.verified[fold(e.file.Name)] = true
	return nil
}

// verifyRest reads every part that no decoder has asked for: a copy with a hole
// in a picture is still an unfinished copy. Parts for which isXML holds must be
// well-formed too.
func (c *container) verifyRest(isXML func(name string) bool) error {
	const pieceSize = 32 << 10
	var buffer []byte
	for _, name := range c.names {
		if c.verified[name] {
			continue
		}
		e := c.entries[name]
		if err := c.claim(e); err != nil {
			return err
		}
		size := int64(pieceSize)
		if isXML(name) {
			size = e.size // is looked at as a whole
		}
		buffer = slices.Grow(buffer[:0], int(size))[:size]
		if err := c.unpack(e, buffer); err != nil {
			return err
		}
		if !isXML(name) {
			continue
		}
		if err := newScanner(name, buffer).drain(); err != nil {
			return err
		}
	}
	return nil
}
