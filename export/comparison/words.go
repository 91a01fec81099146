package comparison

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
	"flowshelf/export/book"
)

// lift prints a lift as the trade writes it: three decimals, no leading zero.
func lift(l quantity.Length) string { return strings.TrimPrefix(bore(l), "0") }

// lifts is a window of lifts in words.
func lifts(from, to quantity.Length) string {
	if to == 0 {
		return "not stated"
	}
	return lift(from) + " to " + lift(to)
}

func bore(l quantity.Length) string { return fmt.Sprintf("%.3f", l.In()) }

// plain prints a number without needless digits.
func plain(x float64) string { return strconv.FormatFloat(x, 'g', 6, 64) }

func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return ""
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

// sentence makes words a sentence, and no words none.
func sentence(words string) string {
	if words == "" {
		return ""
	}
	return capital(words) + "."
}

// number returns a derived figure, nothing when it may not be had.
func number(m compare.Maybe) book.Value {
	if !m.Known {
		return book.Value{}
	}
	return book.Number(m.Value)
}

// stated returns a stated figure, and "not stated" in words for one that is not:
// an empty cell would look like a zero in a sum.
func stated[T any](s source.Stated[T], of func(T) float64) book.Value {
	if !s.Known {
		return book.Text(notStated)
	}
	return book.Number(of(s.Value))
}

const notStated = "not stated"

func said(words string) book.Value {
	if words == "" {
		return book.Text(notStated)
	}
	return book.Text(words)
}

func money(m source.Stated[quantity.Money]) book.Value {
	if !m.Known {
		return book.Value{}
	}
	return book.Number(m.Value.Float())
}

// sum adds the cost lines of one kind; a set without such a line costs nothing
// of it, and a set without any price has no figure.
func sum(c compare.Cost, kind compare.CostKind) book.Value {
	if !c.Usable.Known {
		return book.Value{}
	}
	return book.Number(total(c.Lines, kind))
}

func total(lines []compare.CostLine, kind compare.CostKind) float64 {
	out := 0.0
	for _, l := range lines {
		if l.Kind == kind {
			out += l.Amount.Amount.InexactFloat64()
		}
	}
	return out
}

// items names the cost lines of some kinds with their amounts.
func (w *writer) items(lines []compare.CostLine, kinds ...compare.CostKind) string {
	var out []string
	for _, l := range lines {
		for _, k := range kinds {
			if l.Kind == k {
				out = append(out, fmt.Sprintf("%s %s", l.Item, w.cash(l.Amount.Float())))
			}
		}
	}
	return strings.Join(out, "; ")
}

// cash prints whole money as the sheets show it: "$1,249".
func (w *writer) cash(x float64) string {
	digits := strconv.FormatFloat(math.Abs(math.Round(x)), 'f', 0, 64)
	for i := len(digits) - 3; i > 0; i -= 3 {
		digits = digits[:i] + "," + digits[i:]
	}
	sign := ""
	if math.Round(x) < 0 {
		sign = "-"
	}
	return sign + w.symbol() + digits
}

// symbol is the currency's sign as the money formats show it.
func (w *writer) symbol() string {
	head, _, _ := strings.Cut(string(w.dollars), "#")
	return strings.ReplaceAll(head, `"`, "")
}

// flags joins the codes of an entry's flags.
func flags(e *compare.Entry) string {
	var out []string
	for _, f := range e.Flags {
		out = append(out, f.Code)
	}
	return strings.Join(out, " ")
}

// setsAndOdd prints heads on hand as sets and what is left over: "4 + 1".
func setsAndOdd(e *compare.Entry, perSet int) string {
	if e.Stock == nil || !e.Stock.OnHand.Known || perSet < 1 {
		return notStated
	}
	sets, odd := e.Stock.Sets(perSet)
	if odd != 0 {
		return fmt.Sprintf("%d + %d odd", sets, odd)
	}
	return strconv.Itoa(sets)
}
