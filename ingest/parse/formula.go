package parse

import (
	"math"
	"regexp"
	"strings"
)

// FormulaKind is what a formula beside plain readings does.
type FormulaKind uint8

// The kinds of formula.
const (
	NoFormula  FormulaKind = iota
	Multiplied             // =A7*1.058: a conversion hidden in the cell
	Aggregate              // =AVERAGE(B2:C2), =MAX(...), =SUM(...): the sheet's own summary
	Difference             // =D7-B7
	Linked                 // reads another workbook
	OtherFormula
)

var (
	timesFactor = regexp.MustCompile(`(?i)^\(?\$?[A-Z]{1,3}\$?\d+\)?\s*\*\s*(\d*\.?\d+)$`)
	factorTimes = regexp.MustCompile(`(?i)^(\d*\.?\d+)\s*\*\s*\(?\$?[A-Z]{1,3}\$?\d+\)?$`)
	timesRoot   = regexp.MustCompile(`(?i)^\(?\$?[A-Z]{1,3}\$?\d+\)?\s*\*\s*SQRT\(\s*(\d*\.?\d+)\s*/\s*(\d*\.?\d+)\s*\)$`)
	constant    = regexp.MustCompile(`(?i)^\d*\.?\d+\s*\*\s*(\d*\.?\d+)$`)
	aggregate   = regexp.MustCompile(`(?i)^=?(ROUND\()?(AVERAGE|SUM|MAX|MIN|MEDIAN|STDEV)[A-Z.]*\(`)
	cellMinus   = regexp.MustCompile(`(?i)^\(?\$?[A-Z]{1,3}\$?\d+-\$?[A-Z]{1,3}\$?\d+\)?(/.*)?$`)
)

// Formula says what a formula does and, for a multiplication, by what.
func Formula(text string) (kind FormulaKind, factor float64) {
	text = strings.TrimPrefix(strings.TrimSpace(text), "=")
	switch {
	case text == "":
		return NoFormula, 0
	case strings.Contains(text, "["):
		return Linked, 0
	case aggregate.MatchString(text):
		return Aggregate, 0
	case cellMinus.MatchString(text):
		return Difference, 0
	}
	if m := timesRoot.FindStringSubmatch(text); m != nil {
		to, ok1 := Plain(m[1], PointMark)
		from, ok2 := Plain(m[2], PointMark)
		if ok1 && ok2 && from > 0 {
			return Multiplied, math.Sqrt(to / from)
		}
	}
	for _, pattern := range []*regexp.Regexp{timesFactor, factorTimes, constant} {
		if m := pattern.FindStringSubmatch(text); m != nil {
			if f, ok := Plain(m[1], PointMark); ok {
				return Multiplied, f
			}
		}
	}
	return OtherFormula, 0
}
