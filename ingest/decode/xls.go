package decode

import (
	"bytes"
	"context"
	"encoding/binary"
	"io"
	"strings"

	"github.com/richardlehane/mscfb"
)

// XLS reads workbooks in the binary format of 1997 to 2003 (BIFF8 in a compound
// file). The format has no checksums: what contradicts itself is refused, a
// digit that changed on the way cannot be noticed. The text of formulas is not
// read, and a formula whose result is zero counts as one without a stored
// result.
type XLS struct{}

// Decode implements Decoder.
func (XLS) Decode(ctx context.Context, _ string, content []byte, limits Limits) (*Book, error) {
	stream, macros, err := workbookStream(content)
	if err != nil {
		return nil, err
	}
	b := newBudget(limits)
	if err := b.takeBytes(int64(len(stream))); err != nil {
		return nil, err
	}
	x := &xlsBook{budget: b}
	if err := x.readGlobals(&biffStream{data: stream}); err != nil {
		return nil, err
	}
	book := &Book{Format: "xls", Custom: make(map[string]string), Links: x.links, Macros: macros}
	if len(x.sheets) > limits.Sheets {
		return nil, tooLarge("it has %d sheets and %d are the most that is read", len(x.sheets), limits.Sheets)
	}
	for _, entry := range x.sheets {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		sheet, err := x.readSheet(ctx, stream, entry)
		if err != nil {
			return nil, err
		}
		book.Sheets = append(book.Sheets, *sheet)
	}
	return book, nil
}

// workbookStream finds the stream with the workbook in a compound file.
func workbookStream(content []byte) (stream []byte, macros bool, err error) {
	// The library allocates by what the header claims, and was seen to run out
	// of bounds on a false one.
	unreadable := halfWritten("its directory cannot be read")
	if !soundCompoundHeader(content) {
		return nil, false, unreadable
	}
	defer func() {
		if recover() != nil {
			stream, macros, err = nil, false, unreadable
		}
	}()
	file, err := mscfb.New(bytes.NewReader(content))
	if err != nil {
		return nil, false, unreadable
	}
	old := false
	for _, entry := range file.File {
		switch {
		case entry.Name == "EncryptedPackage":
			return nil, false, locked()
		case entry.Name == "_VBA_PROJECT_CUR":
			macros = true
		case len(entry.Path) > 0:
		case strings.EqualFold(entry.Name, "Book"): // names ignore case: [MS-CFB] 2.6.4
			old = true
		case strings.EqualFold(entry.Name, "Workbook"):
			if entry.Size > int64(len(content)) {
				return nil, false, halfWritten("its end is missing")
			}
			stream = make([]byte, entry.Size)
			if _, err := io.ReadFull(entry, stream); err != nil {
				return nil, false, halfWritten("its end is missing")
			}
		}
	}
	switch {
	case stream != nil:
		return stream, macros, nil
	case old:
		return nil, false, oldFormat("This is a workbook in a format older than 1997; please save as .xlsx and drop again.")
	}
	return nil, false, unknown("This is an office document but not a workbook.")
}

// soundCompoundHeader reports whether the sectors that a compound file's header
// counts could be in the file ([MS-CFB] 2.2, Compound File Header).
func soundCompoundHeader(content []byte) bool {
	const headerSize, sectorShift = 512, 30
	if len(content) < headerSize {
		return false
	}
	shift := binary.LittleEndian.Uint16(content[sectorShift:])
	if shift != 9 && shift != 12 {
		return false
	}
	sectors := uint64(len(content)) >> shift
	for _, count := range [...]int{40, 44, 64, 72} { // sectors of directory, FAT, mini FAT and DIFAT
		if uint64(binary.LittleEndian.Uint32(content[count:])) > sectors {
			return false
		}
	}
	return true
}
