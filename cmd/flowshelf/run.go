package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"time"

	"github.com/schollz/progressbar/v3"
	"github.com/spf13/cobra"

	"flowshelf/ingest/watch"
)

func (a *app) runCommand() *cobra.Command {
	var date, output string
	cmd := &cobra.Command{
		Use:   "run FOLDER",
		Short: "Read a folder once and write its workbooks",
		Long: "Reads every book in the folder once, writes the workbooks, and says what was read, asked and set aside.\n" +
			"Exit code 3 says that questions are open or that files were set aside; the workbooks are written all the same.",
		Args: oneArgument("folder"),
		RunE: func(cmd *cobra.Command, args []string) error {
			day, err := parseDay(date)
			if err != nil {
				return err
			}
			show, err := printer(output, report, printResult)
			if err != nil {
				return err
			}
			return a.run(cmd.Context(), args[0], day, show)
		},
	}
	dateFlag(cmd, &date)
	outputFlag(cmd, &output)
	return cmd
}

func (a *app) run(ctx context.Context, folder string, day time.Time, show func(io.Writer, result) error) error {
	files := watch.Dir(folder)
	if err := readable(files); err != nil {
		return &failure{exitFailed, fmt.Errorf("the folder cannot be read: %w", err), "see that it is there and may be read"}
	}
	alone, err := a.alone(ctx, folder)
	if err != nil {
		return err
	}
	defer alone.end()
	progress, done := a.progress()
	r, err := a.pass(ctx, alone.pass(pass{folder: folder, files: files, date: day, progress: progress}))
	done()
	if err != nil {
		return err
	}
	if err := show(a.stdout, r); err != nil {
		return err
	}
	if r.allBlocked() {
		return &failure{exitFailed, errors.New("no workbook could be written"), r.workbooks[0].Hint}
	}
	if r.open() {
		a.code = exitQuestions
	}
	return nil
}

// progress returns what shows a person how far reading has come, nothing where
// nobody looks, and what ends it.
func (a *app) progress() (step func(done, total int), end func()) {
	if !terminal(a.stderr) {
		return nil, func() {}
	}
	bar := progressbar.NewOptions(0,
		progressbar.OptionSetWriter(a.stderr),
		progressbar.OptionSetDescription("reading"),
		progressbar.OptionShowCount(),
		progressbar.OptionSetWidth(30),
		progressbar.OptionClearOnFinish())
	return func(done, total int) {
		bar.ChangeMax(total)
		_ = bar.Set(done) // a bar that cannot be drawn hinders nothing
	}, func() { _ = bar.Finish() }
}

func parseDay(text string) (time.Time, error) {
	if text == "" {
		return today(), nil
	}
	day, err := time.Parse(time.DateOnly, text)
	if err != nil {
		return time.Time{}, usage(fmt.Sprintf("--date cannot be %q", text), "write a day as in 2026-03-16")
	}
	return day, nil
}

func dateFlag(cmd *cobra.Command, date *string) {
	cmd.Flags().StringVar(date, "date", "", "day the figures stand for, as 2026-03-16 (default: today)")
}

func outputFlag(cmd *cobra.Command, output *string) {
	cmd.Flags().StringVar(output, "output", "text", "text for a person, json for a script")
}

// printer returns the form that --output names.
func printer[T any](output string, text func(io.Writer, T), asJSON func(io.Writer, T) error) (func(io.Writer, T) error, error) {
	switch output {
	case "text":
		return func(w io.Writer, v T) error {
			text(w, v)
			return nil
		}, nil
	case "json":
		return asJSON, nil
	}
	return nil, usage(fmt.Sprintf("--output cannot be %q", output), "--output takes text or json")
}

func printJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}
