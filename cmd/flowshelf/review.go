package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"

	"flowshelf/analysis"
	"flowshelf/analysis/history"
	"flowshelf/analysis/review"
	"flowshelf/analysis/source"
	"flowshelf/export/book"
	writehistory "flowshelf/export/history"
	"flowshelf/export/monthly"
	"flowshelf/ingest"
	"flowshelf/ingest/watch"
)

func (a *app) reviewCommand() *cobra.Command {
	var month, date string
	cmd := &cobra.Command{
		Use:   "review FOLDER",
		Short: "Review a month: what to reorder, clear out, reprice and test, and what changed",
		Long: "Reads the folder once and writes the month's review, compared with the last month that was kept.\n" +
			"Nothing but the review and what is kept of the month is written.",
		Args: oneArgument("folder"),
		RunE: func(cmd *cobra.Command, args []string) error {
			day, err := reviewDay(month, date)
			if err != nil {
				return err
			}
			return a.review(cmd.Context(), args[0], day)
		},
	}
	cmd.Flags().StringVar(&month, "month", "", "month to review, as 2026-03 (default: that of the day)")
	cmd.Flags().StringVar(&date, "date", "", "day the figures stand for, as 2026-03-16 (default: today, or the last day of a past month)")
	return cmd
}

// reviewDay is the day a review stands for.
func reviewDay(month, date string) (time.Time, error) {
	day, err := parseDay(date)
	if err != nil || month == "" {
		return day, err
	}
	first, err := time.Parse("2006-01", month)
	switch {
	case err != nil:
		return day, usage(fmt.Sprintf("--month cannot be %q", month), "write a month as in 2026-03")
	case history.Month(day) == month:
		return day, nil
	case date != "":
		return day, usage(fmt.Sprintf("--date %s is not in %s", date, month), "leave one of the two out")
	case first.After(day):
		return day, usage(month+" is still to come", "name a month that has begun")
	}
	return first.AddDate(0, 1, -1), nil
}

// review makes the review of one month and writes nothing else.
func (a *app) review(ctx context.Context, folder string, day time.Time) error {
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
	p := alone.pass(pass{folder: folder, files: files, date: day, progress: progress, review: true})
	replies, err := a.answers(ctx, p)
	if err != nil {
		return err
	}
	read, err := a.read(ctx, p, replies.Answers)
	done()
	if err != nil {
		return err
	}
	r := result{folder: folder, output: filepath.Join(folder, a.config.Output.Folder), date: day, problems: read.Problems,
		families: analysis.Compare(asking(read), read.Shop, day)}
	for _, c := range r.families {
		r.problems = append(r.problems, c.Problems...)
	}
	r.takeAnswers(replies)
	docs := documents{made: p.made}
	notes := a.addMonth(ctx, &docs, p, r.month(read))
	r.workbooks = docs.publish(ctx, a, p, 0)
	for _, n := range notes {
		fmt.Fprintln(a.stdout, n)
	}
	reportReview(a.stdout, r)
	if r.allBlocked() {
		return &failure{exitFailed, errors.New("the review could not be written"), r.workbooks[0].Hint}
	}
	return nil
}

func reportReview(w io.Writer, r result) {
	fmt.Fprintf(w, "%s reviewed for %s on %s\n", r.folder, history.Month(r.date), r.date.Format(time.DateOnly))
	reportWorkbooks(w, r)
}

// month is the shelf as its review sees it.
func (r result) month(read ingest.Reading) review.Now {
	read.Records.Answers = r.answers
	return review.Now{Records: read.Records, Shop: read.Shop, Families: r.families, Problems: r.problems, Date: r.date}
}

// addMonth lays out what is kept of the month and, where it is asked for, the
// month's review. A later day of the month that was kept already stays.
func (a *app) addMonth(ctx context.Context, docs *documents, p pass, now review.Now) source.Problems {
	month := history.Month(now.Date)
	var notes source.Problems
	if kept, _, err := a.kept(ctx, p, month); err == nil && kept.Date.After(now.Date) {
		notes.Add(source.Problem{At: a.output(history.FileName(month)), Severity: source.Noted, Kind: "history-later",
			Message: "what is kept of this month stands for " + kept.Date.Format(time.DateOnly) + ", a later day, and stays"})
	} else {
		facts := review.Facts(now)
		docs.add(history.FileName(month), []any{facts, now.Shop.Rules.Paper}, func() ([]byte, error) { return writehistory.Write(facts, now.Shop.Rules.Paper) })
	}
	if p.review {
		made := review.Make(now, a.before(ctx, p, month))
		docs.add(monthly.FileName(month), made, func() ([]byte, error) { return monthly.Write(made, monthly.Options{Up: up}) })
	}
	return notes
}

// mostBack is how many months back one is looked for that was kept.
const mostBack = 12

// before finds the last month that was kept before a month, and says so when it
// is not the one just before.
func (a *app) before(ctx context.Context, p pass, month string) review.Before {
	var b review.Before
	at, missing := month, ""
	for range mostBack {
		earlier, err := history.Before(at)
		if err != nil {
			break
		}
		at = earlier
		facts, note, err := a.kept(ctx, p, at)
		switch {
		case err == nil:
			b.Facts, b.Note = &facts, note
			if missing != "" {
				b.Note = missing + " " + note
			}
			return b
		case missing == "" && errors.Is(err, fs.ErrNotExist):
			missing = "Nothing was kept of " + at + "."
		case missing == "":
			missing = fmt.Sprintf("What was kept of %s cannot be used: %v.", at, err)
		}
	}
	b.Note = missing + " No earlier month was kept either, so nothing can be said about what changed."
	return b
}

// kept reads back what was kept of a month.
func (a *app) kept(ctx context.Context, p pass, month string) (facts history.Facts, note string, err error) {
	name := history.FileName(month)
	limit, at := a.config.Limits.FileBytes, a.output(name).File
	content, err := watch.Through(ctx, p.door, func() ([]byte, error) {
		info, err := fs.Stat(watch.Dir(p.folder), at)
		if err != nil {
			return nil, err
		}
		if info.Size() > limit {
			return nil, fmt.Errorf("%s is larger than %d bytes", name, limit)
		}
		return fs.ReadFile(watch.Dir(p.folder), at)
	})
	if err != nil {
		return facts, "", err
	}
	facts, problems, err := ingest.ReadHistory(ctx, name, content, a.ingestOptions().Limits)
	if err != nil {
		return facts, "", err
	}
	if history.Month(facts.Date) != month {
		return facts, "", fmt.Errorf("%s stands for %s", name, facts.Date.Format(time.DateOnly))
	}
	if _, _, edited, err := book.Identity(content); edited && err == nil {
		note = fmt.Sprintf("Somebody changed %s since it was kept; it is read as it stands.", name)
	}
	if len(problems) > 0 {
		note += fmt.Sprintf(" %d of its cells cannot be understood.", len(problems))
	}
	return facts, note, nil
}

// reviewed reports whether a month's review stands in the folder, or nobody can
// say now whether it does: one that stands is not made anew on a later day.
func (a *app) reviewed(ctx context.Context, p pass) bool {
	name := a.output(monthly.FileName(history.Month(p.date))).File
	_, err := watch.Through(ctx, p.door, func() (fs.FileInfo, error) { return fs.Stat(watch.Dir(p.folder), name) })
	return !errors.Is(err, fs.ErrNotExist)
}

// output is a place in our own folder.
func (a *app) output(name string) source.Ref {
	return source.Ref{File: path.Join(a.config.Output.Folder, name)}
}
