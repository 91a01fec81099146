package lists_test

import (
	"strings"
	"testing"
)

// TestEnquiriesAsWritten holds that an enquiry is one under the words of a
// counter hand, and that one which lacks a column is told of.
func TestEnquiriesAsWritten(t *testing.T) {
	const bracket = "355 bracket car, Small Eight: "
	for _, tt := range []struct{ name, drawing, want, problem, says string }{
		{"what the customer wants", "Date|Customer wants|Family|Bore|Stroke|Cylinders|Rpm|Valve lift|Budget $\n@2026-03-12|355 bracket car|Small Eight|4.03|3.48|8|6200|.54|1500",
			bracket + "4.030 x 3.480, 8 cyl, 6200 rpm, 0.540, 1500 USD, ", "", ""},
		{"three columns", "Enquiry|Family|Valve lift\n355 bracket car|Small Eight|.54", bracket + "? x ?, ? cyl, ? rpm, 0.540, ?, ", "", ""},
		{"a family by its cells", "Client|Heads for|Valve lift|Budget $\n355 bracket car|small eight|.54|1500", bracket + "? x ?, ? cyl, ? rpm, 0.540, 1500 USD, ", "", ""},
		{"German", "Kunde|Motorfamilie|Ventilhub\n355 bracket car|Small Eight|13,7 mm", bracket + "? x ?, ? cyl, ? rpm, 0.539, ?, ", "", ""},
		{"nobody asks", "Date|Family|Bore|Valve lift|Budget\n@2026-03-12|Small Eight|4.03|.54|1500", "", "refused enquiry-column-missing", "Customer"},
		{"nothing to go by", "Date|Customer|Family|Note\n@2026-03-12|355 bracket car|Small Eight|fast", "", "refused enquiry-column-missing", "Valve lift"},
		{"families of nobody's", "Client|Family|Budget\nJ. Example|Smith|1500", "", "", ""},
		{"heads by family", "Head|Family|Bore\nLKC-12|Small Eight|4.03", "", "", ""},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got, _ := recognise("book.xlsx", sheet("Sheet1", tt.drawing), theShop())
			if lines := strings.Join(bookLines(got), "\n"); lines != tt.want {
				t.Errorf("read as %q, want %q", lines, tt.want)
			}
			if told := strings.Join(kinds(got.Problems), ", "); told != tt.problem {
				t.Errorf("problems %q, want %q", told, tt.problem)
			}
			for _, p := range got.Problems {
				if !strings.Contains(p.Hint, tt.says) {
					t.Errorf("the hint %q does not name %q", p.Hint, tt.says)
				}
			}
		})
	}
}
