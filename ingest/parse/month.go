package parse

import (
	"cmp"
	"regexp"
	"strings"
	"time"
)

// Month is a month as a column of sales is headed. Year is 0 where none is
// written.
type Month struct {
	Year  int
	Month time.Month
}

var (
	namedMonth  = regexp.MustCompile(`(?i)^(\pL+)\.?[ ./'’-]*(\d{4}|\d{2})?$`)
	yearMonth   = regexp.MustCompile(`^(\d{4})[-./](\d{1,2})$`)
	monthOfYear = regexp.MustCompile(`^(\d{1,2})[-./](\d{4})$`)
)

// ReadMonth reads the title of a month in one of the five languages: "Jan",
// "März", "Feb 26", "févr. 2026", "2026-02", "02/2026". A word that only opens
// like a month, such as "Margin", is none.
func ReadMonth(title string) (Month, bool) {
	title = Squeeze(title)
	if m := namedMonth.FindStringSubmatch(title); m != nil {
		found := monthNamed(m[1])
		return Month{year(m[2]), found}, found > 0
	}
	if m := yearMonth.FindStringSubmatch(title); m != nil {
		return monthIn(number(m[1]), number(m[2]))
	}
	if m := monthOfYear.FindStringSubmatch(title); m != nil {
		return monthIn(number(m[2]), number(m[1]))
	}
	return Month{}, false
}

func monthIn(year, month int) (Month, bool) {
	return Month{year, time.Month(month)}, year >= 1950 && year < 2200 && month >= 1 && month <= 12
}

// MonthOf returns the month of a day.
func MonthOf(day time.Time) Month { return Month{day.Year(), day.Month()} }

// Add returns the month so many months later.
func (m Month) Add(months int) Month {
	return MonthOf(time.Date(m.Year, m.Month+time.Month(months), 1, 0, 0, 0, 0, time.UTC))
}

// End returns the last day of the month.
func (m Month) End() time.Time {
	return time.Date(m.Year, m.Month+1, 0, 0, 0, 0, 0, time.UTC)
}

// Compare orders months in time.
func (m Month) Compare(o Month) int {
	return cmp.Or(cmp.Compare(m.Year, o.Year), cmp.Compare(m.Month, o.Month))
}

// String prints a month as "Feb 2026", or "Feb" without a year.
func (m Month) String() string {
	if m.Year == 0 {
		return m.Month.String()[:3]
	}
	return time.Date(m.Year, m.Month, 1, 0, 0, 0, 0, time.UTC).Format("Jan 2006")
}

// monthNamed finds a month by its name or a usual short form in English,
// German, French, Italian and Spanish; 0 for none.
func monthNamed(word string) time.Month {
	for i, names := range [12]string{
		"jan january januar jänner janv janvier gen gennaio ene enero",
		"feb february februar fév févr février fevrier febbraio febr febrero",
		"mar march mär märz maerz mrz mars marzo",
		"apr april avr avril aprile abr abril",
		"may mai mag maggio mayo",
		"jun june juni juin giu giugno junio",
		"jul july juli juil juillet lug luglio julio",
		"aug august août aout ago agosto",
		"sep sept september septembre set settembre septiembre",
		"oct october okt oktober octobre ott ottobre octubre",
		"nov november novembre noviembre",
		"dec december dez dezember déc décembre dic dicembre diciembre",
	} {
		for name := range strings.FieldsSeq(names) {
			if strings.EqualFold(name, word) {
				return time.Month(i + 1)
			}
		}
	}
	return 0
}
