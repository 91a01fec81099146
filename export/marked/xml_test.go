package marked_test

import (
	"encoding/xml"
	"errors"
	"io"
	"slices"
	"strings"
	"testing"
)

// order is the order in which the elements of a sheet stand (ISO/IEC 29500-1,
// CT_Worksheet); programs repair what does not keep to it.
var order = []string{
	"sheetPr", "dimension", "sheetViews", "sheetFormatPr", "cols", "sheetData", "sheetCalcPr", "sheetProtection", "protectedRanges", "scenarios",
	"autoFilter", "sortState", "dataConsolidate", "customSheetViews", "mergeCells", "phoneticPr", "conditionalFormatting", "dataValidations",
	"hyperlinks", "printOptions", "pageMargins", "pageSetup", "headerFooter", "rowBreaks", "colBreaks", "customProperties", "cellWatches",
	"ignoredErrors", "smartTags", "drawing", "legacyDrawing", "legacyDrawingHF", "picture", "oleObjects", "controls", "webPublishItems", "tableParts", "extLst",
}

func inOrder(t *testing.T, marks []byte) {
	for name, part := range partsOf(t, marks) {
		if !strings.HasPrefix(name, "xl/worksheets/") || !strings.HasSuffix(name, ".xml") {
			continue
		}
		last := 0
		for _, element := range children(t, part) {
			at := slices.Index(order, element)
			if at < last {
				t.Errorf("%s: %s stands too late", name, element)
			}
			last = at
		}
	}
}

// children names the elements right below the root of a part.
func children(t *testing.T, part string) []string {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(part))
	depth := 0
	var out []string
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return out
		}
		must(t, err)
		switch e := token.(type) {
		case xml.StartElement:
			depth++
			if depth == 2 {
				out = append(out, e.Name.Local)
			}
		case xml.EndElement:
			depth--
		}
	}
}
