package main

import (
	"cmp"
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"text/tabwriter"
	"time"

	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/ingest"
)

// reportInspection shows a person how a file was understood.
func reportInspection(w io.Writer, i inspection) {
	fmt.Fprintf(w, "%s: %s", filepath.FromSlash(i.read.Path), i.read.State)
	if i.read.Reason != "" {
		fmt.Fprintf(w, ", %s", i.read.Reason)
	}
	setup := "none found: the file is read alone, with the defaults, so that no head, valve size or price from another book is known"
	switch {
	case i.apart:
		setup = fmt.Sprintf("%s; the %d other files of its folder were not read: copies of this file, tests of the same head that differ, valve sizes, prices and the names that heads have in other books are not known here. --folder reads them too",
			i.setup, i.others)
	case i.setup != "":
		setup = fmt.Sprintf("%s; what %d other files of its folder say counts too", i.setup, i.others)
	}
	fmt.Fprintf(w, "\nSetup: %s\n", setup)
	if caution := i.read.Unproved(); caution != "" {
		fmt.Fprintf(w, "Caution: %s\n", caution)
	}
	for _, p := range i.read.Pages {
		reportPage(w, p)
	}
	for n := range i.records.Tests {
		reportTest(w, &i.records.Tests[n], i.shop.Rules)
	}
	for _, t := range i.lists() {
		reportList(w, t)
	}
	if len(i.problems) > 0 {
		fmt.Fprintf(w, "\nProblems (%d)\n", len(i.problems))
	}
	for _, p := range i.problems.Sorted() {
		fmt.Fprintf(w, "  %-9s %s\n", strings.ReplaceAll(p.Severity.String(), "_", " "), p)
	}
}

// reportPage says who read a sheet and what each of its cells was taken for.
func reportPage(w io.Writer, p ingest.PageRead) {
	fmt.Fprintf(w, "\nSheet %q: ", p.Sheet)
	if p.Why != "" {
		fmt.Fprintln(w, p.Why)
		return
	}
	fmt.Fprintf(w, "read by %s; %d cells used, %d set aside, %d not understood\n",
		strings.Join(p.By, ", "), p.Used, p.SetAside, p.Unclaimed)
	table := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	for _, c := range p.Cells {
		role := c.Claim.Why
		switch {
		case c.Claim.By == "":
			role = "not understood"
		case !c.Claim.Used:
			role = "set aside: " + role
		}
		fmt.Fprintf(table, "  %s\t%s\t%s\n", source.CellName(c.Cell.Row, c.Cell.Col), short(c.Cell.Text), role)
	}
	_ = table.Flush() // w is the caller's, and so is its error
}

func reportTest(w io.Writer, t *head.Test, rules head.Rules) {
	fmt.Fprintf(w, "\n%s, %s, %s; %s\n", title(t), t.Port, t.Class, t.At)
	conditions := []string{
		"read as " + t.Shape,
		stated("bore", t.Bore, func(b quantity.Length) string { return fmt.Sprintf("%.3f in", b.In()) }),
		stated("test pressure", t.Pressure, func(p quantity.Pressure) string { return fmt.Sprintf("%.4g inH2O", p.InH2O()) }),
		stated("date", t.Date, func(d time.Time) string { return d.Format(time.DateOnly) }),
	}
	if t.Port == head.Exhaust {
		conditions = append(conditions, "pipe "+t.Pipe.String())
	}
	fmt.Fprintf(w, "  %s\n", strings.Join(conditions, "\n  "))
	if t.Status != head.Used {
		fmt.Fprintf(w, "  the whole column is %s: %s\n", words(t.Status), t.Why)
	}
	table := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprint(table, "  cell\tas written\tlift in\tcfm as tested\tcfm at 28\t\n")
	for _, r := range t.Readings {
		shown := readingOf(t, r, rules)
		fmt.Fprintf(table, "  %s\t%s\t%s\t%s\t%s\t%s\n", shown.Cell, short(r.Flow.Trace.Text),
			figure(shown.LiftIn, "%.3f"), figure(shown.CFMAsTested, "%.1f"), figure(shown.CFM28, "%.1f"), remark(t, r))
	}
	_ = table.Flush() // as above
}

func title(t *head.Test) string {
	parts := []string{t.Head}
	for _, part := range []string{t.State, t.Sample, t.PortMark, t.Run} {
		if part != "" {
			parts = append(parts, part)
		}
	}
	return strings.Join(parts, " / ")
}

// stated prints a condition with where it was found and how it was converted.
func stated[T any](name string, s source.Stated[T], show func(T) string) string {
	if !s.Known {
		return name + " not stated"
	}
	text := name + " " + show(s.Value)
	if s.Trace.At.Cell != "" {
		text += fmt.Sprintf(" from cell %s (%q)", s.Trace.At.Cell, s.Trace.Text)
	}
	for _, step := range s.Trace.Steps {
		text += ", " + step
	}
	return text
}

func remark(t *head.Test, r head.Reading) string {
	parts := []string{}
	if s := readingStatus(t, r); s != head.Used {
		parts = append(parts, words(s))
	}
	if r.Why != "" {
		parts = append(parts, r.Why)
	}
	if r.Flow.Trace.Unit != "" {
		parts = append(parts, r.Flow.Trace.Unit)
	}
	parts = append(parts, r.Flow.Trace.Steps...)
	if r.Remark != "" {
		parts = append(parts, fmt.Sprintf("remark %q", r.Remark))
	}
	return strings.Join(parts, "; ")
}

func reportList(w io.Writer, t tableJSON) {
	fmt.Fprintf(w, "\n%s rows on sheet %q\n", strings.ReplaceAll(t.Kind, "_", " "), t.Sheet)
	for _, row := range t.Rows {
		parts := make([]string, 0, len(row.values))
		for _, v := range row.values {
			text := v.name + " " + strings.TrimSpace(cmp.Or(v.brief, v.value)+" "+v.unit)
			if v.cell != "" {
				text += " [" + v.cell + "]"
			}
			parts = append(parts, text)
		}
		fmt.Fprintf(w, "  %s: %s\n", words(row.status), strings.Join(parts, ", "))
	}
}

func words(s head.Status) string { return strings.ReplaceAll(s.String(), "_", " ") }

// figure prints a number, a dash for one that is not to be had.
func figure(x *float64, format string) string {
	if x == nil {
		return "-"
	}
	return fmt.Sprintf(format, *x)
}

// short cuts a text that would break a line of the terminal.
func short(s string) string {
	const most = 40
	s = strings.Join(strings.Fields(s), " ")
	if r := []rune(s); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return s
}
