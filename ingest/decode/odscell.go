package decode

import (
	"bytes"
	"strings"
)

// odsValue is what a cell says of its value: the declared type, the more exact
// type that LibreOffice adds (calcext), and the value attributes.
type odsValue struct {
	kind, exact            string
	number, date, duration string
	boolean, text          string
	formula                string
	paragraphs             []string
	struck                 bool
}

// cellValue reads the cell element at hand, and the shapes that are tied to it.
func (t *odsTable) cellValue(style cellStyle, at position) Cell {
	v := t.valueAttributes()
	cell := Cell{Stored: true, Format: style.format, Struck: style.struck, Bold: style.bold, Filled: style.filled}
	depth := t.depth()
	for t.child(depth) {
		switch string(t.name) {
		case "p":
			text, struck := t.paragraph()
			v.paragraphs, v.struck = append(v.paragraphs, text), v.struck || struck
		case "annotation":
			cell.Note = t.annotation()
		default:
			t.readShape(at)
		}
	}
	if t.err == nil && !v.set(&cell) {
		t.fail("a cell in row %d holds %s, which is no %s", t.row, quoted([]byte(v.number+v.date+v.duration+v.boolean)), v.kind)
	}
	for _, text := range []string{cell.Text, cell.Note, cell.Formula} {
		t.stop(t.book.budget.checkText(len(text)))
	}
	return cell
}

func (t *odsTable) valueAttributes() odsValue {
	var v odsValue
	for _, a := range t.attrs {
		value := string(a.value)
		switch string(t.data[a.local:a.to]) {
		case "value-type":
			if bytes.HasPrefix(t.full(a.tagName), []byte("calcext:")) {
				v.exact = value
			} else {
				v.kind = value
			}
		case "value":
			v.number = value
		case "date-value":
			v.date = value
		case "time-value":
			v.duration = value
		case "boolean-value":
			v.boolean = value
		case "string-value":
			v.text = value
		case "formula":
			v.formula = plainFormula(value)
		}
	}
	return v
}

// set gives the cell its value and reports whether it fits the type.
//
// LibreOffice declares errors as strings and the results of logical formulas as
// numbers: the exact type tells the first, the text shown the second.
func (v *odsValue) set(cell *Cell) bool {
	shown := strings.Join(v.paragraphs, "\n")
	cell.Formula = v.formula
	cell.Stored = v.formula == "" || v.kind != "" || len(v.paragraphs) > 0
	ok := true
	switch v.kind {
	case "":
	case "string":
		text := shown
		if len(v.paragraphs) == 0 {
			text = v.text
		}
		if text != "" {
			cell.Kind, cell.Text = Text, text
			cell.Struck = cell.Struck || v.struck
		}
		if v.exact == "error" {
			cell.Kind = Failed
		}
	case "float", "percentage", "currency":
		ok = setNumber(cell, v.number)
		if logical := shown == "TRUE" || shown == "FALSE"; logical && (cell.Num == 0 || cell.Num == 1) {
			cell.Kind, cell.Text = Bool, ""
		}
	case "date":
		cell.Kind, cell.Text = Date, v.date
		cell.Num, ok = isoSerial(v.date)
	case "time":
		cell.Kind, cell.Text = Date, v.duration
		cell.Num, ok = isoDuration(v.duration)
	case "boolean":
		ok = setBool(cell, v.boolean)
	default:
		ok = false
	}
	return ok
}

// plainFormula spells an OpenFormula expression the way other workbooks do:
// of:=[.B2]*[$Costs.C3];... becomes B2*$Costs!C3,...
func plainFormula(formula string) string {
	if _, after, found := strings.Cut(formula, ":="); found {
		formula = after
	} else {
		formula = strings.TrimPrefix(formula, "=")
	}
	var out strings.Builder
	quote, bracket := byte(0), false
	for i := range len(formula) {
		b := formula[i]
		switch {
		case quote != 0:
			if b == quote {
				quote = 0
			}
		case b == '"', b == '\'':
			quote = b
		case b == '[' || b == ']':
			bracket = b == '['
			continue
		case bracket && b == '.':
			if before := formula[i-1]; before != '[' && before != ':' {
				out.WriteByte('!')
			}
			continue
		case !bracket && b == ';':
			b = ','
		}
		out.WriteByte(b)
	}
	return out.String()
}
