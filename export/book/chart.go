package book

import (
	"bytes"
	"cmp"
	_ "embed"
	"encoding/xml"
	"fmt"
	"slices"
	"strconv"
	"text/template"

	"github.com/xuri/excelize/v2"
)

// Chart is a scatter chart with straight segments: smoothing would hide the
// dips that people look for.
type Chart struct {
	Title  string
	X, Y   Axis
	Series []Series
}

// Axis is one axis of a chart.
type Axis struct {
	Title    string
	Format   Format
	Min, Max *float64
	Step     float64 // between the labelled lines, 0 for automatic
}

// Series is one line or cloud of a chart. Name, X and Y are cells of the book,
// so that the picture follows them.
type Series struct {
	Name    Range
	X, Y    Range
	Noise   *Range // half length of an error bar for each point
	Look    Look
	Named   Label // where the series' name stands at its points
	Unkeyed bool  // left out of the legend
}

// Label is where a name stands at a point (ISO/IEC 29500-1, 21.2.3.11), "" for
// nowhere.
type Label string

// The places of a name.
const (
	Above   Label = "t"
	Under   Label = "b"
	LeftOf  Label = "l"
	RightOf Label = "r"
)

// Look is how a series is drawn. Dashes and markers keep the lines of a chart
// apart without colour.
type Look struct {
	Ink    Colour
	Dash   Dash
	Marker Marker
	Points float64 // line width, 0 for no line
}

// Dash is a pattern of a line (ISO/IEC 29500-1, 20.1.10.49).
type Dash string

// The dashes.
const (
	Solid    Dash = "solid"
	Dashed   Dash = "dash"
	Dotted   Dash = "sysDot"
	DashDot  Dash = "dashDot"
	LongDash Dash = "lgDash"
	LongDots Dash = "lgDashDotDot"
)

// Marker is the sign at a point (ISO/IEC 29500-1, 21.2.3.27).
type Marker string

// The markers.
const (
	NoMarker Marker = "none"
	Circle   Marker = "circle"
	Square   Marker = "square"
	Diamond  Marker = "diamond"
	Triangle Marker = "triangle"
	Cross    Marker = "x"
	Plus     Marker = "plus"
)

// Looks returns the look of the i-th line of a book: six that stay apart in
// black and white, then again from the start.
func Looks(i int) Look {
	looks := [...]Look{
		{"12355B", Solid, Circle, 2.25},
		{"B3471D", Dashed, Square, 2.25},
		{"2E7D4F", DashDot, Triangle, 2.25},
		{"6B3FA0", Dotted, Diamond, 2.5},
		{"8A6D00", LongDash, Cross, 2},
		{"3F3F3F", LongDots, Plus, 2},
	}
	return looks[i%len(looks)]
}

// placed is a chart and where it stands, in pixels at 96 dots an inch.
type placed struct {
	chart         Chart
	row, col      int
	width, height int
}

// Draw puts a chart with its upper left corner at a cell.
func (s *Sheet) Draw(c Chart, row, col, width, height int) {
	s.charts = append(s.charts, placed{c, row, col, width, height})
}

//go:embed chart.xml.tmpl
var chartTemplate string

// drawings lets excelize wire a chart into the package and then puts our own
// drawing in its part: excelize stores no points, so that previews are empty,
// and writes elements on the axes that the schema does not know there.
func (r *renderer) drawings(s *Sheet) error {
	if len(s.charts) == 0 {
		return nil
	}
	tmpl, err := template.New("chart").Funcs(template.FuncMap{
		"esc": escapeXML, "points": r.points, "words": r.words, "emu": emu, "num": num,
	}).Parse(chartTemplate)
	if err != nil {
		return err
	}
	for _, p := range s.charts {
		wiring := &excelize.Chart{
			Type:      excelize.Scatter,
			Series:    []excelize.ChartSeries{{Name: "a", Categories: "a", Values: "a"}},
			Dimension: excelize.ChartDimension{Width: uint(p.width), Height: uint(p.height)},
		}
		if err := r.file.AddChart(s.name, CellName(p.row, p.col), wiring); err != nil {
			return err
		}
		r.charts++
		var out bytes.Buffer
		if err := tmpl.Execute(&out, newPicture(p.chart)); err != nil {
			return fmt.Errorf("chart %q: %w", p.chart.Title, err)
		}
		r.file.Pkg.Store(fmt.Sprintf("xl/charts/chart%d.xml", r.charts), out.Bytes())
	}
	return nil
}

// cached is one stored point of a chart.
type cached struct {
	Index int
	Value string
}

// points returns the numbers of a range as the chart stores them; a gap stays a
// gap.
func (r *renderer) points(area Range) []cached { return r.cached(area, number) }

// words returns the texts of a range as the chart stores them.
func (r *renderer) words(area Range) []cached { return r.cached(area, text) }

func (r *renderer) cached(area Range, want kind) []cached {
	s := r.book.find(area.Sheet)
	if s == nil {
		return nil
	}
	var out []cached
	i := 0
	for row := area.Row; row <= area.ToRow; row++ {
		for col := area.Col; col <= area.ToCol; col++ {
			v := s.At(row, col).Value
			if v.kind == want {
				out = append(out, cached{i, fmt.Sprint(v.native())})
			}
			i++
		}
	}
	return out
}

// Len returns how many cells the range holds.
func (r Range) Len() int { return (r.ToRow - r.Row + 1) * (r.ToCol - r.Col + 1) }

func escapeXML(s any) (string, error) {
	var out bytes.Buffer
	err := xml.EscapeText(&out, []byte(fmt.Sprint(s)))
	return out.String(), err
}

// emu spells a width in points as English metric units, 12700 to the point.
func emu(points float64) int { return int(points * 12700) }

func num(x float64) string { return strconv.FormatFloat(x, 'g', -1, 64) }

// picture is a chart as the template wants it.
type picture struct {
	Chart
	Heading    heading
	Across, Up drawnAxis
	Keyed      bool // some series belongs in the legend
}

type drawnAxis struct {
	Axis      Axis
	ID, Other int
	Pos, Code string
	Heading   heading
}

type heading struct {
	Words string
	Size  int // hundredths of a point
}

func newPicture(c Chart) picture {
	const across, up = 500001, 500002 // any two numbers: the axes name one another by them
	return picture{
		Chart: c, Heading: heading{c.Title, 1200},
		Across: drawn(c.X, across, up, "b"), Up: drawn(c.Y, up, across, "l"),
		Keyed: slices.ContainsFunc(c.Series, func(s Series) bool { return !s.Unkeyed }),
	}
}

func drawn(a Axis, id, other int, pos string) drawnAxis {
	return drawnAxis{a, id, other, pos, cmp.Or(string(a.Format), "General"), heading{a.Title, 1000}}
}
