package ingest

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"slices"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/flowsheet"
	"flowshelf/ingest/layout"
)

// State is what became of one file.
type State uint8

// The states.
const (
	Read       State = iota
	PartlyRead       // something in it waits for an answer or could not be used
	SetAside         // understood, and nothing of ours
	Refused          // cannot be read
	Waiting          // looks half written; a later look may succeed
)

// String returns the words a status sheet shows.
func (s State) String() string {
	return [...]string{"read", "partly read", "set aside", "refused", "waiting"}[s]
}

// The kinds of refusal that another machine, or another day, may not repeat.
const (
	tooSlow = "too-slow"
	faulty  = "internal"
)

// FileRead is one file as read.
type FileRead struct {
	Path    string // below the folder, with forward slashes
	Hash    string // SHA-256 of the content, in hex
	Format  string // as decode.Book says, "" for what could not be decoded
	State   State
	Kind    string // stable word for why it was not read: "damaged", "same-as", "nothing-found"
	Reason  string // one sentence
	SameAs  string // the file with the same content, when this is its copy
	Pages   []PageRead
	Records head.Records // what it held; in a Reading they are joined, and none are kept here
	Asked   []string     // keys of the questions that an answer was looked for to, in order
	Told    string       // fingerprint of the answers to them
}

// PageRead is what became of one sheet.
type PageRead struct {
	Sheet     string
	By        []string // the recognisers that found something, in order
	Why       string   // why nothing was read, "" when something was
	Used      int      // cells
	SetAside  int
	Unclaimed int        // cells with a value that nobody accounted for
	Cells     []CellRead // what ReadFile saw; a whole folder is read without them
}

// CellRead is what became of one cell.
type CellRead struct {
	Cell  decode.Cell
	Claim layout.Claim // the zero Claim when nobody accounted for the cell
}

// Unproved says what the file's format cannot vouch for, "" for one whose parts
// carry checksums.
func (f FileRead) Unproved() string {
	switch f.Format {
	case "xls", "csv", "tsv":
		return "this kind of file carries no checksum: a digit that changed on its way cannot be noticed"
	}
	return ""
}

// Cells adds up the cells of all pages.
func (f FileRead) Cells() (used, setAside, unclaimed int) {
	for _, p := range f.Pages {
		used, setAside, unclaimed = used+p.Used, setAside+p.SetAside, unclaimed+p.Unclaimed
	}
	return used, setAside, unclaimed
}

// ReadFile reads one content. It never fails: what cannot be read is a state
// with a reason. A fault in a reader of ours is a refusal of this one file.
func ReadFile(ctx context.Context, path string, content []byte, about layout.Context, limits decode.Limits) FileRead {
	about.Shop = known(about.Shop)
	return readWith(ctx, recognisers(), path, content, about, limits)
}

// readWith reads a content with recognisers made before, which reading does not
// change, under a setup reduced to what is known.
func readWith(ctx context.Context, all []layout.Recogniser, path string, content []byte, about layout.Context, limits decode.Limits) FileRead {
	file := FileRead{Path: path, Hash: hashOf(content)}
	about.Path = path
	said, asked := about.Answers, make(map[string]bool)
	about.Answers = said.Noting(func(key string) { asked[key] = true })
	read := file.guarded(func(f *FileRead) {
		book, err := decode.Open(ctx, path, content, limits)
		if err != nil {
			f.undecodable(err)
			return
		}
		f.Format = book.Format
		f.readBook(ctx, book, all, about)
	})
	read.Asked = slices.Sorted(maps.Keys(asked))
	read.Told = said.Only(read.Asked).Fingerprint()
	return read
}

// guarded turns a fault of ours into a refusal of the one file that shows it.
func (f FileRead) guarded(read func(*FileRead)) (out FileRead) {
	out = f
	defer func() {
		if fault := recover(); fault != nil {
			out = f
			out.refuse(Refused, faulty, "reading this file failed through a fault of the program, not of the file",
				fmt.Sprintf("please report it with the file (%v)", fault))
		}
	}()
	read(&out)
	return out
}

func (f *FileRead) undecodable(err error) {
	var refusal *decode.Refusal
	switch {
	case errors.As(err, &refusal) && refusal.Retry:
		f.refuse(Waiting, refusal.Kind, refusal.Message, refusal.Hint)
	case errors.As(err, &refusal):
		f.refuse(Refused, refusal.Kind, refusal.Message, refusal.Hint)
	case errors.Is(err, context.DeadlineExceeded):
		f.refuse(Refused, tooSlow, "reading this file took too long", "drop a smaller workbook")
	default:
		f.refuse(Waiting, "unreadable", "this file could not be read: "+err.Error(), "it is tried again")
	}
}

func (f *FileRead) refuse(state State, kind, reason, hint string) {
	f.State, f.Kind, f.Reason = state, kind, reason
	f.Records.Problems.Add(source.Problem{At: source.Ref{File: f.Path}, Severity: source.Refused,
		Kind: kind, Message: reason, Hint: hint})
}

func (f *FileRead) setAside(kind, reason string) {
	f.State, f.Kind, f.Reason = SetAside, kind, reason
}

// readBook runs the recognisers over every sheet, for as long as there is time:
// a book that takes longer is refused whole, not read in part.
func (f *FileRead) readBook(ctx context.Context, book *decode.Book, all []layout.Recogniser, about layout.Context) {
	if id := book.Custom[OutputProperty]; id != "" {
		f.setAside("own-output", "written by us and never read as a source")
		return
	}
	if isSetup(book) {
		f.setAside("second-setup", "a copy of the shop's setup; only the one at the top of the folder counts")
		f.Records.Problems.Add(source.Problem{At: source.Ref{File: f.Path}, Severity: source.Noted, Kind: "second-setup",
			Message: "this looks like a copy of the shop's setup and was not read", Hint: "change the setup itself, and take the copy out of the folder"})
		return
	}
	for i := range book.Sheets {
		f.Pages = append(f.Pages, f.readSheet(ctx, book, &book.Sheets[i], all, about))
	}
	if err := ctx.Err(); err != nil {
		*f = FileRead{Path: f.Path, Hash: f.Hash, Format: f.Format}
		f.undecodable(err)
		return
	}
	f.conclude()
}

// conclude decides the state of a file whose sheets have been read.
func (f *FileRead) conclude() {
	open := 0
	for _, p := range f.Records.Problems {
		if p.Severity == source.Asked || p.Severity == source.Refused {
			open++
		}
	}
	if !anything(f.Records) && open == 0 { // forms and covers alone are nothing
		reason := "nothing of ours found here: no flow sheet, price list, stock book or other list of heads"
		for _, p := range f.Records.Problems {
			if p.Severity == source.SetAside && p.Kind == flowsheet.KindUnread {
				reason = p.Message
				break
			}
		}
		f.setAside("nothing-found", reason)
		return
	}
	_, _, unclaimed := f.Cells()
	switch {
	case open == 1:
		f.State, f.Reason = PartlyRead, "one thing waits for an answer or could not be used"
	case open > 1:
		f.State, f.Reason = PartlyRead, fmt.Sprintf("%d things wait for an answer or could not be used", open)
	case unclaimed > 0:
		f.State, f.Reason = PartlyRead, fmt.Sprintf("%d cells are not understood", unclaimed)
	}
}
