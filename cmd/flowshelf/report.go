package main

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/export/publish"
	"flowshelf/ingest"
)

// Long lists are cut in the terminal and never in the workbooks.
const (
	topOfRanking = 3
	mostReasons  = 5
	mostListed   = 12
)

// report tells a person what a pass came to, in plain words.
func report(w io.Writer, r result) {
	fmt.Fprintf(w, "%s on %s\n", r.folder, r.date.Format(time.DateOnly))
	reportFiles(w, r)
	reportProblems(w, "Questions", r.asked(), func(p source.Problem) string {
		if p.Question != nil && p.Question.Text != "" {
			return fmt.Sprintf("%s: %s", p.At, p.Question.Text)
		}
		return p.String()
	})
	reportProblems(w, "Refused", r.having(source.Refused), source.Problem.String)
	for _, c := range r.families {
		reportFamily(w, c)
	}
	if len(r.families) == 0 {
		fmt.Fprint(w, "\nNothing to rank: no family has a head with readings that can be used.\n")
	}
	reportWorkbooks(w, r)
}

func reportFiles(w io.Writer, r result) {
	if len(r.files) == 0 {
		fmt.Fprint(w, "\nThe folder holds no books. Drop flow sheets, price lists and stock books into it.\n")
		return
	}
	read := 0
	for _, f := range r.files {
		if f.read.State == ingest.Read || f.read.State == ingest.PartlyRead {
			read++
		}
	}
	readings, rows := r.sum()
	fmt.Fprintf(w, "\nRead %d of %s.\n  %s: %s\n  %s: %s\n", read, plural(len(r.files), "file"),
		plural(readings.total(), "flow reading"), readings.inWords(),
		plural(rows.total(), "row")+" of prices, stock and other lists", rows.inWords())
	if words := r.answersInWords(); words != "" {
		fmt.Fprintf(w, "  %s\n", words)
	}
	for _, f := range r.files {
		if f.read.State != ingest.Read && f.read.State != ingest.PartlyRead {
			fmt.Fprintf(w, "  %-9s %s: %s\n", f.read.State, f.path, f.read.Reason)
		}
	}
}

func (c counts) inWords() string {
	return fmt.Sprintf("%d used, %d waiting for an answer, %d set aside, %d refused", c.Used, c.Asked, c.SetAside, c.Refused)
}

func reportProblems(w io.Writer, title string, ps source.Problems, words func(source.Problem) string) {
	if len(ps) == 0 {
		return
	}
	fmt.Fprintf(w, "\n%s (%d)\n", title, len(ps))
	for i, p := range ps {
		if i == mostListed {
			fmt.Fprintf(w, "  and %d more, all in the workbooks\n", len(ps)-i)
			break
		}
		fmt.Fprintf(w, "  %s\n", words(p))
	}
}

func reportFamily(w io.Writer, c compare.Comparison) {
	fmt.Fprintf(w, "\n%s: %s ", c.Family.Name, plural(len(c.Ranked), "head"))
	switch {
	case len(c.Ranked) == 0:
		fmt.Fprint(w, "ranked")
	case !c.Worth.Known:
		fmt.Fprintf(w, "in the order of flow, without places: what a cfm is worth is %s", c.Worth.Origin)
	default:
		fmt.Fprintf(w, "ranked by value, a cfm being worth %s (%s)", amount(inMoney(c.Worth.PerCFM, currencyOf(c)), cents), c.Worth.Origin)
	}
	fmt.Fprintln(w)
	for i, e := range c.Ranked {
		reportEntry(w, e)
		if i+1 == topOfRanking {
			break
		}
	}
	if more := len(c.Ranked) - topOfRanking; more > 0 {
		fmt.Fprintf(w, "  and %d more in the workbook\n", more)
	}
	reportLabels(w, "without a usable cost", c.Unpriced)
	reportLabels(w, "below the line (a supplier's own test)", c.BelowLine)
	reportLabels(w, "advertised only", c.Advertised)
	for _, n := range c.NotRanked {
		fmt.Fprintf(w, "  not ranked  %s: %s\n", n.Label, n.Reason)
	}
}

func reportEntry(w io.Writer, e compare.Entry) {
	place := "-"
	if e.Place.Number > 0 {
		place = fmt.Sprint(e.Place.Number)
	}
	if e.Place.Shared {
		place += "="
	}
	facts := []string{}
	if e.Cost.Usable.Known {
		facts = append(facts, amount(e.Cost.Usable.Value, whole)+" a usable set")
	}
	if e.Intake != nil && e.Intake.Working.Known {
		facts = append(facts, fmt.Sprintf("%.0f cfm working average, %s", e.Intake.Working.Value, e.Intake.Course()))
	}
	if e.PerCFM.Known {
		facts = append(facts, amount(inMoney(e.PerCFM.Value, e.Cost.Usable.Value.Currency), cents)+" a cfm")
	}
	if e.Shape.Known {
		facts = append(facts, fmt.Sprintf("shape %.0f of 100", e.Shape.Score))
	}
	fmt.Fprintf(w, "  %-3s %s: %s\n", place, e.Label, strings.Join(facts, "; "))
	for _, reason := range e.Reasons[:min(mostReasons, len(e.Reasons))] {
		fmt.Fprintf(w, "        %s\n", reason)
	}
}

func reportLabels(w io.Writer, title string, entries []compare.Entry) {
	if len(entries) == 0 {
		return
	}
	labels := make([]string, 0, len(entries))
	for _, e := range entries {
		labels = append(labels, e.Label)
	}
	fmt.Fprintf(w, "  %s: %s\n", title, strings.Join(labels, ", "))
}

func reportWorkbooks(w io.Writer, r result) {
	if len(r.workbooks) == 0 {
		return
	}
	fmt.Fprintf(w, "\nWorkbooks in %s\n", r.output)
	for _, o := range r.workbooks {
		at := o.At
		if at == "" {
			at = o.Name
		}
		fmt.Fprintf(w, "  %-14s %s\n", o.State, filepath.FromSlash(at))
		if o.Message != "" {
			fmt.Fprintf(w, "  %-14s %s\n", "", sentence(o))
		}
	}
}

func sentence(o publish.Outcome) string {
	if o.Hint == "" {
		return o.Message
	}
	return o.Message + "; " + o.Hint
}

// Decimal places of an amount.
const (
	whole = 0
	cents = 2
)

// amount prints money with thousands separated; other currencies than dollars
// keep their code.
func amount(m quantity.Money, places int32) string {
	digits, fraction, _ := strings.Cut(m.Amount.Abs().StringFixed(places), ".")
	for i := len(digits) - 3; i > 0; i -= 3 {
		digits = digits[:i] + "," + digits[i:]
	}
	if fraction != "" {
		digits += "." + fraction
	}
	sign := ""
	if m.Amount.IsNegative() {
		sign = "-"
	}
	if m.Currency == "USD" {
		return sign + "$" + digits
	}
	return strings.TrimSpace(sign + digits + " " + m.Currency)
}

func inMoney(x float64, currency string) quantity.Money {
	return quantity.Of(decimal.NewFromFloat(x), currency)
}

// currencyOf is the one that the family's sets are priced in.
func currencyOf(c compare.Comparison) string {
	if c.Family.Worth.Known {
		return c.Family.Worth.Value.Currency
	}
	for _, e := range c.Ranked {
		return e.Cost.Usable.Value.Currency
	}
	return ""
}

func plural(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}
