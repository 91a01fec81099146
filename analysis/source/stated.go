package source

import "regexp"

var (
	conversion = regexp.MustCompile(`^(\S+) (?:/ [\d.]+|x [\d.]+|to inH2O)(?: = \w+)?$`)
	lone       = regexp.MustCompile(`^\s*(\d+(?:[.,]\d+)?|[.,]\d+)(?:[\s/"']|\p{L}[23³²]?)*$`)
)

// Foreign returns the unit that the value was converted from, "" where it was
// stated in the one it is kept in.
func (t Trace) Foreign() string {
	if len(t.Steps) == 0 {
		return ""
	}
	if m := conversion.FindStringSubmatch(t.Steps[0]); m != nil {
		return m[1]
	}
	return ""
}

// AsStated returns a value that was converted from another unit as its sheet
// states it: "96 mm", "18,8 L/s". It is "" for one that was not converted, and
// for one whose cell holds other figures too.
func (t Trace) AsStated() string {
	unit, figure := t.Foreign(), lone.FindStringSubmatch(t.Text)
	if unit == "" || figure == nil {
		return ""
	}
	return figure[1] + " " + unit
}
