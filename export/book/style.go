package book

import (
	"fmt"

	"github.com/xuri/excelize/v2"
)

// Format is a number format code.
type Format string

// The formats of the trade. Lifts have three decimals and no leading zero;
// flows are whole, because the bench does not repeat to better.
const (
	General    Format = ""
	Lift       Format = ".000"
	Flow       Format = "0"
	Tenth      Format = "0.0"
	Hundredth  Format = "0.00"
	Thousandth Format = "0.000"
	Signed     Format = `+0;-0;0`
	SignedOne  Format = `+0.0;-0.0;0.0`
	Percent    Format = "0%"
	PercentOne Format = "0.0%"
	SignedPct  Format = `+0.0%;-0.0%;0.0%`
	Date       Format = "yyyy-mm-dd"
	AsTyped    Format = "@"    // no program turns what is typed into a date or a number
	Alone      Format = "0"    // a place nobody shares
	Shared     Format = `0"="` // a shared place: a number that reads "2="
)

// Money returns the format of an amount in the currency: "$1,249" with no
// decimals, "$5.89" with two.
func Money(currency string, decimals int) Format {
	symbol := map[string]string{"": "$", "USD": "$", "EUR": `"€"`, "GBP": `"£"`}[currency]
	if symbol == "" {
		symbol = fmt.Sprintf("%q", clean(currency)+" ")
	}
	digits := "#,##0"
	if decimals > 0 {
		digits += fmt.Sprintf(".%0*d", decimals, 0)
	}
	return Format(fmt.Sprintf("%[1]s%[2]s;-%[1]s%[2]s", symbol, digits))
}

// Colour is a colour as six hexadecimal digits, "" for none.
type Colour string

// The palette. Every pair of ink and fill stays apart when printed in grey.
const (
	Ink      Colour = "1D2629"
	Muted    Colour = "6A6F70"
	Accent   Colour = "7A3414"
	LinkInk  Colour = "1F4E79"
	HeadFill Colour = "E6E0D3"
	BandFill Colour = "F5F2EA"
	Input    Colour = "FFF3B0"
	RuleInk  Colour = "BDB5A5"
)

// Align is where a value stands in its cell.
type Align string

// The alignments; Auto puts texts left and numbers right.
const (
	Auto   Align = ""
	Left   Align = "left"
	Centre Align = "center"
	Right  Align = "right"
)

// Rule is a line along an edge of a cell.
type Rule uint8

// The rules.
const (
	NoRule Rule = iota
	Hair
	Thin
	Heavy
)

// Style is how a cell looks. The zero Style is the plain body of a sheet.
type Style struct {
	Format             Format
	Bold, Italic, Wrap bool
	Strike             bool
	Points             float64 // font size, 0 for the body's
	Ink, Fill          Colour
	Align              Align
	Indent             int
	Top, Bottom        Rule
	Middle             bool // stands in the middle of a tall row rather than at its top
	Open               bool // may be typed in on a locked sheet
}

// The styles that sheets share.
var (
	Title    = Style{Bold: true, Points: 15, Ink: Ink}
	Subtitle = Style{Ink: Muted}
	Section  = Style{Bold: true, Points: 11.5, Ink: Accent}
	Header   = Style{Bold: true, Wrap: true, Fill: HeadFill, Bottom: Thin, Top: Thin, Middle: true}
	Body     = Style{Bottom: Hair}
	Prose    = Style{Wrap: true}
	Note     = Style{Italic: true, Ink: Muted}
	Yellow   = Style{Fill: Input, Top: Thin, Bottom: Thin, Bold: true, Middle: true}
)

// As returns the style with another number format.
func (s Style) As(f Format) Style { s.Format = f; return s }

// On returns the style on a fill.
func (s Style) On(fill Colour) Style { s.Fill = fill; return s }

// Wrapped returns the style with its text broken into lines.
func (s Style) Wrapped() Style { s.Wrap = true; return s }

// Strong returns the style in bold.
func (s Style) Strong() Style { s.Bold = true; return s }

// Indented returns the style with its text a little off the edge, so that it
// does not touch a number that ends in the column before.
func (s Style) Indented() Style { s.Indent, s.Align = 1, Left; return s }

// Opened returns the style of a cell that may be typed in on a locked sheet.
func (s Style) Opened() Style { s.Open = true; return s }

// To returns the style with its value at one side.
func (s Style) To(a Align) Style { s.Align = a; return s }

const (
	fontName   = "Arial"
	bodyPoints = 9.5
)

func (s Style) points() float64 {
	if s.Points > 0 {
		return s.Points
	}
	return bodyPoints
}

// excel spells the style for the writer.
func (s Style) excel() *excelize.Style {
	ink := s.Ink
	if ink == "" {
		ink = Ink
	}
	out := &excelize.Style{
		Font: &excelize.Font{
			Family: fontName, Size: s.points(), Bold: s.Bold, Italic: s.Italic, Strike: s.Strike, Color: string(ink),
		},
		Alignment: &excelize.Alignment{Horizontal: string(s.Align), Vertical: "top", WrapText: s.Wrap, Indent: s.Indent},
	}
	if s.Middle {
		out.Alignment.Vertical = "center"
	}
	if s.Fill != "" {
		out.Fill = excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{string(s.Fill)}}
	}
	for _, edge := range []struct {
		side string
		rule Rule
	}{{"top", s.Top}, {"bottom", s.Bottom}} {
		if edge.rule != NoRule {
			out.Border = append(out.Border, edge.rule.border(edge.side))
		}
	}
	if s.Open {
		out.Protection = &excelize.Protection{Locked: false}
	}
	if s.Format != General {
		code := string(s.Format)
		out.CustomNumFmt = &code
	}
	return out
}

func (r Rule) border(side string) excelize.Border {
	// Line styles of ISO/IEC 29500-1, 18.18.3: 1 thin, 2 medium, 7 hair.
	return excelize.Border{
		Type:  side,
		Style: map[Rule]int{Hair: 7, Thin: 1, Heavy: 2}[r],
		Color: string(map[Rule]Colour{Hair: RuleInk, Thin: Muted, Heavy: Ink}[r]),
	}
}
