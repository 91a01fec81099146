package parse

import (
	"regexp"
	"strings"
)

// ReadingText is one flow as somebody typed it.
type ReadingText struct {
	Value   float64
	Known   bool   // Value can be taken as it stands
	Missing bool   // a word that means "not flowed"; Remark holds it
	AtLeast bool   // >265, 265+: off the scale
	AtMost  bool   // <60
	About   bool   // ~265
	Doubted bool   // 265?
	Mark    string // *, †, (1): a footnote is bound to it
	Remark  string // the tester's words
	Band    [2]float64
	Either  [2]float64 // 262/258: two runs or two ports
	Unsure  string     // why it has to be asked; "" when it need not

	// EitherMark says that Unsure hangs on what the comma or the point of its
	// column means, and on nothing else.
	EitherMark bool
}

var (
	missingWord = regexp.MustCompile(`(?i)^(-+|–+|—+|\.+|n/?a|n\.a\.?|n/?t|n\.t\.?|not tested|dnf|did not flow|n/?r|x+|tbd|tba|none|out of air|pegged|no air|skip(ped)?|hit(s)? the piston|hit(s)? piston|k\.?a\.?|missing|void|bad)$`)
	aloneWord   = regexp.MustCompile(`^[\p{L}][\p{L} ,.'/-]*[!?.]*$`)

	numberFirst = regexp.MustCompile(`^([~≈]|ca\.?\s*|about\s+)?([<>≥≤]=?)?\s*(\d+(?:[.,]\d+)*|[.,]\d+)\s*(.*)$`)
	twoNumbers  = regexp.MustCompile(`^(\d+(?:[.,]\d+)?)\s*(/|-|–|to)\s*(\d+(?:[.,]\d+)?)$`)
	splitNumber = regexp.MustCompile(`^\d+ \d+$`)
	inBrackets  = regexp.MustCompile(`^\(\s*\d+(?:[.,]\d+)?\s*\)$`)
	letterDigit = regexp.MustCompile(`^[\dOolI]+(?:[.,][\dOolI]+)?$`)
	footMark    = regexp.MustCompile(`^(\*+|†+|‡+|#|§|¹|²|³|\^\d|\(\d\)|\[\d\])\s*`)
	brackets    = regexp.MustCompile(`^[(\[]\s*(.*?)\s*[)\]]?$`)
)

// Reading reads a flow typed as text. Nothing is dropped: a remark, a footnote
// mark, a doubt or a bound is returned beside the value.
func Reading(text string, mark Mark) ReadingText {
	text = withoutApostrophes(Squeeze(text))
	switch {
	case missingWord.MatchString(text):
		return ReadingText{Missing: true, Remark: text}
	case splitNumber.MatchString(text):
		return ReadingText{Unsure: "a space stands inside the number"}
	case inBrackets.MatchString(text):
		return ReadingText{Unsure: "the number stands in brackets"}
	}
	if m := twoNumbers.FindStringSubmatch(text); m != nil {
		return two(m, mark)
	}
	m := numberFirst.FindStringSubmatch(text)
	if m == nil {
		return noNumber(text)
	}
	x, ok := Plain(m[3], mark)
	if !ok {
		return ReadingText{Unsure: "the decimal sign cannot be told from a thousands sign", EitherMark: mark == MarkUnknown}
	}
	if m[4] != "" && letterDigit.MatchString(m[3]+m[4]) {
		return ReadingText{Unsure: "letters stand where digits belong"}
	}
	r := ReadingText{Value: x, Known: true, About: m[1] != ""}
	switch {
	case strings.HasPrefix(m[2], ">"), m[2] == "≥":
		r.AtLeast = true
	case m[2] != "":
		r.AtMost = true
	}
	return r.tail(m[4])
}

// tail reads what follows the number: +, ?, a footnote mark, a unit, words.
func (r ReadingText) tail(rest string) ReadingText {
	for rest != "" {
		switch {
		case rest[0] == '+' && len(strings.TrimLeft(rest, "+ ")) == 0:
			r.AtLeast, rest = true, ""
		case rest[0] == '?':
			r.Doubted, rest = true, strings.TrimLeft(rest, "? ")
		case footMark.MatchString(rest):
			m := footMark.FindString(rest)
			r.Mark, rest = strings.TrimSpace(m), rest[len(m):]
		default:
			r.Remark, rest = brackets.ReplaceAllString(rest, "$1"), ""
		}
	}
	if r.Remark != "" && strings.ContainsAny(r.Remark[:1], "0123456789+-*/=%") {
		r.Known, r.Unsure = false, "more than one number stands in the cell"
	}
	return r
}

func two(m []string, mark Mark) ReadingText {
	a, ok1 := Plain(m[1], mark)
	b, ok2 := Plain(m[3], mark)
	switch {
	case !ok1 || !ok2:
		return ReadingText{Unsure: "two numbers stand in the cell"}
	case m[2] == "/":
		return ReadingText{Either: [2]float64{a, b}, Unsure: "two numbers: two runs or two ports"}
	case b < a || b > 1.1*a:
		return ReadingText{Either: [2]float64{a, b}, Unsure: "two numbers that are no narrow range"}
	default:
		return ReadingText{Value: (a + b) / 2, Known: true, Band: [2]float64{a, b}}
	}
}

func noNumber(text string) ReadingText {
	switch {
	case letterDigit.MatchString(text):
		return ReadingText{Unsure: "letters stand where digits belong"}
	case aloneWord.MatchString(text):
		return ReadingText{Missing: true, Remark: text}
	default:
		return ReadingText{Unsure: "this is not a number"}
	}
}
