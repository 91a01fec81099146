package main

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path"
	"runtime/debug"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"flowshelf/analysis/source"
	"flowshelf/export/marked"
	"flowshelf/export/publish"
)

// markCopyName is the command that a pass starts for each marked copy.
const markCopyName = "mark-copy"

// markRequest is what that command reads from its standard input.
type markRequest struct {
	Original marked.Original
	Findings []marked.Finding
	Limits   marked.Limits
	Memory   uint64 // bytes
}

// markCopyCommand marks one copy in a process of its own: a workbook that uses
// up time or memory there costs this one copy. It writes the copy to standard
// output.
func (a *app) markCopyCommand() *cobra.Command {
	return &cobra.Command{
		Use:    markCopyName,
		Short:  "Mark a copy of one workbook, for a pass",
		Hidden: true,
		Args:   cobra.NoArgs,
		RunE:   func(cmd *cobra.Command, _ []string) error { return markCopy(cmd.InOrStdin(), a.stdout) },
	}
}

func markCopy(in io.Reader, out io.Writer) error {
	var r markRequest
	if err := json.NewDecoder(in).Decode(&r); err != nil {
		return fmt.Errorf("the request cannot be read: %w", err)
	}
	const reserve = 0.8 // of the memory: from there on, space is won back at any price
	debug.SetMemoryLimit(int64(float64(r.Memory) * reserve))
	if err := limitMemory(r.Memory); err != nil {
		return err
	}
	content, err := marked.Make(r.Original, r.Findings, r.Limits)
	if err != nil {
		return err
	}
	_, err = out.Write(content)
	return err
}

// copies remembers the marked copies of earlier passes. A nil one remembers
// nothing.
type copies struct {
	made map[string]copied // by path of the original
}

type copied struct {
	request [sha256.Size]byte
	content []byte
}

func newCopies() *copies { return &copies{made: make(map[string]copied)} }

// marking makes the marked copies of one pass.
type marking struct {
	*app
	files  fs.FS
	before *copies
}

// add lays out a marked copy of each workbook that something is to be said
// about. What it returns tells, by path, why there is none.
func (m marking) add(ctx context.Context, docs *documents, files []file, problems source.Problems) map[string]string {
	remarks := make(map[string]string)
	wanted := make([]string, 0, len(files))
	for _, f := range files {
		if f.read.Kind != "own-output" {
			wanted = append(wanted, f.path)
		}
	}
	names := marked.Names(wanted)
	for _, name := range wanted {
		doc, err := m.copy(ctx, name, path.Join(marked.Folder, names[name]), marked.Of(name, problems))
		switch {
		case errors.Is(err, errNothingToMark):
		case err != nil:
			remarks[name] = "no marked copy: " + err.Error()
		default:
			docs.ready = append(docs.ready, doc)
		}
	}
	return remarks
}

var (
	errNothingToMark = errors.New("nothing to be said")
	errNotMarkable   = errors.New("only .xlsx and .xlsm workbooks get one; what is to be said stands on the sheet Problems")
)

// copy makes the copy of one file. A file that nothing is to be said about any
// more keeps its copy, without the marks.
func (m marking) copy(ctx context.Context, name, as string, found []marked.Finding) (publish.Document, error) {
	if len(found) == 0 && !m.stands(as) {
		return publish.Document{}, errNothingToMark
	}
	content, err := fs.ReadFile(m.files, name)
	if err != nil {
		return publish.Document{}, errors.New("the file cannot be read now")
	}
	ext, err := marked.Extension(content)
	if err != nil {
		return publish.Document{}, errNotMarkable
	}
	request, err := json.Marshal(markRequest{
		Original: marked.Original{Path: name, Content: content}, Findings: found, Limits: m.markLimits(), Memory: m.markMemory(),
	})
	if err != nil {
		return publish.Document{}, err
	}
	out, err := m.before.or(name, request, func() ([]byte, error) { return markApart(ctx, request, m.config.Limits.FileTime) })
	return publish.Document{Name: as + ext, Content: out}, err
}

// stands reports whether there is a copy from an earlier pass.
func (m marking) stands(as string) bool {
	return slices.ContainsFunc([]string{".xlsx", ".xlsm"}, func(ext string) bool {
		_, err := fs.Stat(m.files, path.Join(m.config.Output.Folder, as+ext))
		return err == nil
	})
}

// or returns the copy made before for the same request, or marks it now.
func (c *copies) or(name string, request []byte, mark func() ([]byte, error)) ([]byte, error) {
	if c == nil {
		return mark()
	}
	sum := sha256.Sum256(request)
	if before, ok := c.made[name]; ok && before.request == sum {
		return before.content, nil
	}
	content, err := mark()
	if err == nil {
		c.made[name] = copied{sum, content}
	}
	return content, err
}

// markLimits bounds the work on one copy; a cell takes four to six tags.
func (a *app) markLimits() marked.Limits {
	const tagsPerCell, mostFindings = 8, 500
	return marked.Limits{UnzippedBytes: a.config.Limits.UnzippedBytes, Tags: tagsPerCell * a.config.Limits.Cells, Findings: mostFindings}
}

// markMemory returns how much memory one copy may take, in bytes: some for each
// byte of the workbook that is held, and some for each of its cells.
func (a *app) markMemory() uint64 {
	const least, perByte, perCell = 512 << 20, 2, 2048
	return least + perByte*uint64(max(a.config.Limits.UnzippedBytes, 0)) + perCell*uint64(max(a.config.Limits.Cells, 0))
}

// markApart runs the command in a process of its own. Its error is a few plain
// words.
func markApart(ctx context.Context, request []byte, limit time.Duration) ([]byte, error) {
	program, err := os.Executable()
	if err != nil {
		return nil, err
	}
	ctx, cancel := context.WithTimeout(ctx, limit)
	defer cancel()
	var out, said bytes.Buffer
	cmd := exec.CommandContext(ctx, program, markCopyName) //nolint:gosec // it is this very program
	cmd.Args[0] = "flowshelf"                              // whatever the file is called
	cmd.Stdin, cmd.Stdout, cmd.Stderr = bytes.NewReader(request), &out, &said
	cmd.WaitDelay = time.Second
	err = cmd.Run()
	switch {
	case errors.Is(ctx.Err(), context.DeadlineExceeded):
		return nil, errors.New("marking it took too long")
	case ctx.Err() != nil:
		return nil, errors.New("interrupted")
	case err != nil:
		return nil, errors.New(lastWords(said.String()))
	}
	return out.Bytes(), nil
}

// crashed is said of a child that ended without a sentence of its own. What the
// runtime prints when memory is refused has too many forms to tell it from a
// fault of ours.
const crashed = "marking it takes too much memory, or met a fault of the program"

// lastWords returns what a child said about its failure.
func lastWords(said string) string {
	for line := range strings.Lines(said) {
		if words, ok := strings.CutPrefix(line, "error: "); ok {
			return strings.TrimSpace(words)
		}
	}
	return crashed
}
