package decode

import "time"

// days1904 is the distance between the two day counts of spreadsheets: day 0 of
// the 1904 system is day 1462 of the 1900 system (ECMA-376 part 1, section
// 18.17.4.1).
const days1904 = 1462

// isoSerial turns an ISO 8601 date, time or both into a serial day of the 1900
// system; before March 1900 programs differ by a day.
func isoSerial(text string) (float64, bool) {
	epoch := time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)
	for _, layout := range []string{"2006-01-02T15:04:05", "2006-01-02", "2006-01-02T15:04:05Z07:00", "2006-01-02T15:04"} {
		t, err := time.Parse(layout, text)
		if err != nil {
			continue
		}
		wall := time.Date(t.Year(), t.Month(), t.Day(), t.Hour(), t.Minute(), t.Second(), t.Nanosecond(), time.UTC)
		serial := wall.Sub(epoch).Hours() / 24
		return serial, serial >= 0 && serial < 2_958_466
	}
	for _, layout := range []string{"15:04:05", "15:04"} {
		if t, err := time.Parse(layout, text); err == nil {
			midnight := time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, time.UTC)
			return t.Sub(midnight).Hours() / 24, true
		}
	}
	return 0, false
}
