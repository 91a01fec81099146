package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"

	"flowshelf/analysis"
	"flowshelf/analysis/head"
	"flowshelf/analysis/shop"
	"flowshelf/analysis/source"
	"flowshelf/export/publish"
	"flowshelf/ingest"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/watch"
)

func (a *app) inspectCommand() *cobra.Command {
	var date, output string
	var whole bool
	cmd := &cobra.Command{
		Use:   "inspect FILE",
		Short: "Show how one file is understood, cell by cell",
		Long: "Shows each table found in the file, every reading with its cell, and every problem. Nothing is written.\n" +
			fmt.Sprintf("The folder that the file lies in is read as for a run, so that setup, answers, valve sizes and prices from other books count.\n"+
				"With more than %d other files only the setup, the answers and the file are read, and it is said what that leaves out;\n", manyFiles) +
			"a file outside of such a folder is read alone, with the defaults.",
		Args: oneArgument("file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			day, err := parseDay(date)
			if err != nil {
				return err
			}
			show, err := printer(output, reportInspection, printInspection)
			if err != nil {
				return err
			}
			i, err := a.inspect(cmd.Context(), args[0], day, whole)
			if err != nil {
				return err
			}
			if i.open() {
				a.code = exitQuestions
			}
			return show(a.stdout, i)
		},
	}
	dateFlag(cmd, &date)
	outputFlag(cmd, &output)
	cmd.Flags().BoolVar(&whole, "folder", false, "read the other files of the folder as well, however many they are")
	return cmd
}

// manyFiles is how many other files of a folder are read to show one of it: more would
// make a person wait for what is seldom in question.
const manyFiles = 200

// inspection is one file as understood.
type inspection struct {
	read     ingest.FileRead
	records  head.Records // of this file, by the shop's own names
	problems source.Problems
	shop     head.Shop
	setup    string // path of the setup workbook in force, "" for the defaults
	others   int    // other files of the folder
	apart    bool   // the other files were not read
}

// open reports whether something in the file waits for a person.
func (i inspection) open() bool {
	return i.read.State != ingest.Read || i.problems.Worst() >= source.Asked && i.waits()
}

func (i inspection) waits() bool {
	for _, p := range i.problems {
		if p.Severity == source.Asked || p.Severity == source.Refused {
			return true
		}
	}
	return false
}

func (a *app) inspect(ctx context.Context, name string, day time.Time, whole bool) (inspection, error) {
	info, err := os.Stat(name)
	if err != nil {
		return inspection{}, &failure{exitFailed, err, "name a file that is there and may be read"}
	}
	if !info.Mode().IsRegular() {
		return inspection{}, usage(fmt.Sprintf("%s is not a file", name), "inspect takes one file; for a folder there is run")
	}
	folder, inside, found, err := home(name)
	if err != nil {
		return inspection{}, err
	}
	options := a.ingestOptions()
	replies, err := ingest.ReadAnswers(ctx, watch.Dir(folder), publish.Names(answersFile), options, day)
	if err != nil {
		return inspection{}, err
	}
	options.Answers = replies.Answers
	read, others, err := readAlone(ctx, folder, inside, options)
	if err != nil {
		return inspection{}, err
	}
	i := inspection{records: read.Records, shop: read.Shop, others: others}
	around := read
	if found {
		i.setup = filepath.Join(folder, shop.FileName)
		i.apart = others > manyFiles && !whole
	}
	if found && !i.apart {
		if around, err = a.around(ctx, folder, options); err != nil {
			return inspection{}, err
		}
	}
	if !i.take(around, inside) && !i.take(read, inside) {
		return inspection{}, &failure{exitFailed, fmt.Errorf("%s is a temporary or hidden file, which is never read", name),
			"inspect the workbook itself"}
	}
	i.referee(around.Records, day)
	if len(i.read.Pages) > 0 {
		i.read.Pages = pages(ctx, folder, inside, read.Shop, options)
	}
	return i, nil
}

// readAlone reads a file with the setup, and counts the other files of the folder that
// a run would read.
func readAlone(ctx context.Context, folder, inside string, options ingest.Options) (read ingest.Reading, others int, err error) {
	reserved := options.Reserved
	options.Reserved = "" // a person may look at our own outputs too
	options.Only = func(path string) bool {
		if path != inside && !watch.Ignored(path, reserved) {
			others++
		}
		return path == inside
	}
	read, err = ingest.ReadFolder(ctx, watch.Dir(folder), options)
	return read, others, err
}

// around reads the whole folder, as a run does.
func (a *app) around(ctx context.Context, folder string, options ingest.Options) (ingest.Reading, error) {
	progress, done := a.progress()
	defer done()
	options.Progress = progress
	return ingest.ReadFolder(ctx, watch.Dir(folder), options)
}

// take takes the file's state and problems from a reading, and reports whether
// the file is in it.
func (i *inspection) take(read ingest.Reading, inside string) bool {
	for _, f := range read.Files {
		if f.Path == inside {
			i.read = f
		}
	}
	for _, p := range read.Problems {
		if p.At.File == inside {
			i.problems.Add(p)
		}
	}
	return i.read.Path != ""
}

// referee takes in what the comparison finds impossible about the readings, with
// all that the folder knows of the heads on the day.
func (i *inspection) referee(known head.Records, day time.Time) {
	families := analysis.Compare(known, i.shop, day)
	refused := refusedCells(families)
	for t := range i.records.Tests {
		readings := i.records.Tests[t].Readings
		for r := range readings {
			if why, bad := refused[readings[r].Flow.Trace.At]; bad {
				readings[r].Status, readings[r].Why = head.Refused, why
			}
		}
	}
	for _, c := range families {
		for _, p := range c.Problems {
			// What a comparison misses is only told where it had the whole folder.
			if _, bad := refused[p.At]; p.At.File == i.read.Path && (bad || i.setup != "" && !i.apart) {
				i.problems.Add(p)
			}
		}
	}
}

// pages reads the file once more by itself, because a folder's reading does not
// keep what each cell was taken for.
func pages(ctx context.Context, folder, inside string, shop head.Shop, options ingest.Options) []ingest.PageRead {
	content, err := fs.ReadFile(watch.Dir(folder), inside)
	if err != nil {
		return nil // gone since; what was read of it stands
	}
	return ingest.ReadFile(ctx, inside, content, layout.Context{Shop: shop, Answers: options.Answers}, options.Limits).Pages
}

// home finds the folder that a file belongs to, the nearest one above it with
// a setup workbook, and the file's path below it. Without one it is the folder
// that the file lies in.
func home(name string) (folder, inside string, found bool, err error) {
	full, err := filepath.Abs(name)
	if err != nil {
		return "", "", false, err
	}
	folder = filepath.Dir(full)
	for up := folder; ; up = filepath.Dir(up) {
		_, err := os.Stat(filepath.Join(up, shop.FileName))
		if err == nil {
			folder, found = up, true
			break
		}
		if !errors.Is(err, fs.ErrNotExist) || up == filepath.Dir(up) {
			break
		}
	}
	inside, err = filepath.Rel(folder, full)
	return folder, filepath.ToSlash(inside), found, err
}
