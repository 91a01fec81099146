package main

import (
	"context"
	"errors"
	"io/fs"
	"path"
	"slices"
	"strings"

	"flowshelf/analysis/source"
	"flowshelf/export/marked"
)

// unmarkable remembers, by path, the files that could not be marked and from what.
type unmarkable map[string]unmarked

type unmarked struct {
	input string
	err   error
}

// marking makes the marked copies of one pass.
type marking struct {
	*app
	files fs.FS
	tried unmarkable
	write func() // writes what was added so far, so that it need not be held any more
}

// mostHeld is how many bytes of copies are held before they are written.
const mostHeld = 32 << 20

// toMark is what a marked copy depends on.
type toMark struct {
	path, hash string
	found      []marked.Finding
	limits     marked.Limits
	memory     uint64
}

// add adds a marked copy of each workbook that something is to be said about.
// What it returns tells, by path, why there is none.
func (m marking) add(ctx context.Context, docs *documents, files []file, problems source.Problems) map[string]string {
	remarks := make(map[string]string)
	wanted := make([]string, 0, len(files))
	for _, f := range files {
		if f.read.Kind != "own-output" {
			wanted = append(wanted, f.path)
		}
	}
	names, found, held := marked.Names(wanted), marked.ByFile(problems), 0
	for _, f := range files {
		as, ok := names[f.path]
		if !ok || len(found[f.path]) == 0 {
			continue // a copy from an earlier pass is withdrawn
		}
		as = path.Join(marked.Folder, as)
		one := toMark{f.path, f.read.Hash, found[f.path], m.markLimits(), m.markMemory()}
		size, err := m.copy(ctx, docs, as, one)
		if err != nil {
			remarks[f.path] = "no marked copy: " + err.Error()
			for _, ext := range extensions() {
				docs.tried = append(docs.tried, as+ext) // what stands there may still be of use
			}
		}
		if held += size; held > mostHeld {
			m.write()
			held = 0
		}
	}
	return remarks
}

var (
	errNotMarkable   = errors.New("only .xlsx and .xlsm workbooks get one; what is to be said stands on the sheet Problems")
	errNoWorkbook    = errors.New("it cannot be opened as a workbook; what is to be said stands on the sheet Problems")
	errUnreadableNow = errors.New("the file cannot be read now")
)

// notMarkable says why a file gets no copy: by its name it may be one of those
// that do.
func notMarkable(name string) error {
	if slices.Contains(extensions(), strings.ToLower(path.Ext(name))) {
		return errNoWorkbook
	}
	return errNotMarkable
}

// extensions are those of marked copies.
func extensions() []string { return []string{".xlsx", ".xlsm"} }

// copy adds the copy of one file and returns its size. It is made at once, for
// the status tells why there is none, unless it was made of the same before.
func (m marking) copy(ctx context.Context, docs *documents, as string, of toMark) (size int, err error) {
	again := func() ([]byte, error) {
		content, _, err := m.mark(ctx, of)
		return content, err
	}
	for _, ext := range extensions() {
		if docs.addIfMade(as+ext, of, again) {
			return 0, nil
		}
	}
	input := fingerprint(of)
	if before, ok := m.tried[of.path]; ok && before.input == input {
		return 0, before.err
	}
	content, ext, err := m.mark(ctx, of)
	if err != nil {
		if m.tried != nil && ctx.Err() == nil {
			m.tried[of.path] = unmarked{input, err}
		}
		return 0, err
	}
	docs.addMade(as+ext, of, content, again)
	return len(content), nil
}

// mark makes the copy of one file, and says what its name ends in.
func (m marking) mark(ctx context.Context, of toMark) (content []byte, ext string, err error) {
	original, err := fs.ReadFile(m.files, of.path)
	if err != nil {
		return nil, "", errUnreadableNow
	}
	if ext, err = marked.Extension(original); err != nil {
		return nil, "", notMarkable(of.path)
	}
	job := markJob{marked.Original{Path: of.path, Content: original}, of.found, of.limits}
	content, err = m.marker.mark(ctx, job, bounds{of.memory, m.config.Limits.FileTime})
	return content, ext, err
}

// markLimits bounds the work on one copy; a cell takes four to six tags.
func (a *app) markLimits() marked.Limits {
	const tagsPerCell, mostFindings = 8, 500
	return marked.Limits{UnzippedBytes: a.config.Limits.UnzippedBytes, Tags: tagsPerCell * a.config.Limits.Cells, Findings: mostFindings}
}

// markMemory returns how much memory marking may take, in bytes: some for each
// byte of the workbook that is held, and some for each of its cells.
func (a *app) markMemory() uint64 {
	const least, perByte, perCell = 512 << 20, 2, 2048
	return least + perByte*uint64(max(a.config.Limits.UnzippedBytes, 0)) + perCell*uint64(max(a.config.Limits.Cells, 0))
}
