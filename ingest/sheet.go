package ingest

import (
	"context"
	"regexp"
	"slices"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/flowsheet"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/lists"
)

// recognisers returns all of them in the order they are tried: lists that can be
// nothing else, flow sheets, then lists that may stand beside readings.
func recognisers() []layout.Recogniser {
	return slices.Concat(lists.Unmistakable(), flowsheet.Recognisers(), lists.Others())
}

var (
	templateName = regexp.MustCompile(`(?i)^\W*(template|example|master|blank|muster|vorlage|sample form)\b`)
	templateText = regexp.MustCompile(`(?i)\b(do not delete|sample form|blank form|example only)\b|^\W*(template|vorlage|muster)\W*$`)
)

const templateRows = 5 // a form says so at its top

// readSheet lets every recogniser look at one sheet, unless something about the
// whole sheet says that it is no data.
func (f *FileRead) readSheet(ctx context.Context, book *decode.Book, sheet *decode.Sheet, all []layout.Recogniser, about layout.Context) PageRead {
	page := layout.NewPage(f.Path, book, sheet)
	out := PageRead{Sheet: sheet.Name}
	if kind, why := notData(sheet); why != "" {
		out.Why = why
		f.Records.Problems.Add(source.Problem{At: source.Ref{File: f.Path, Sheet: sheet.Name},
			Severity: source.SetAside, Kind: kind, Message: why})
		for _, c := range page.Unclaimed() {
			page.Claim(c.Row, c.Col, layout.Claim{By: "sheet", Why: why})
		}
		out.count(page)
		return out
	}
	told := false
	for _, r := range all {
		if ctx.Err() != nil {
			return out // readBook drops what there is
		}
		free := page.Left()
		records := r.Recognise(page, about)
		told = told || anything(records) || records.Problems.Worst() > source.Noted
		if anything(records) || len(out.By) == 0 && page.Left() < free {
			out.By = append(out.By, r.Name())
		}
		f.Records.Append(records)
	}
	if !told {
		f.tellUnread(page, about, &out)
	}
	f.noteTextBoxes(sheet, out.By)
	if len(out.By) == 0 && out.Why == "" {
		out.Why = "nothing of ours on this sheet"
	}
	out.count(page)
	return out
}

// tellUnread says of a sheet that nothing was read from and nothing was said about why
// a flow sheet was expected there.
func (f *FileRead) tellUnread(page *layout.Page, about layout.Context, out *PageRead) {
	for _, p := range flowsheet.Unread(page, about) {
		f.Records.Problems.Add(p)
		out.Why = p.Message
	}
}

// notData says why a whole sheet holds no data, "" when it may.
func notData(sheet *decode.Sheet) (kind, why string) {
	values := slices.ContainsFunc(sheet.Cells, func(c decode.Cell) bool { return !c.Blank() })
	switch {
	case sheet.Hidden:
		return "hidden-sheet", "a hidden sheet is not read"
	case !values && sheet.Pictures > 0:
		return "picture-only", "this sheet holds a picture and no numbers could be read; type them or ask the supplier for the sheet"
	case !values && len(sheet.TextBoxes) > 0:
		return "picture-only", "this sheet holds text boxes and no cells; type what they say into cells"
	case !values:
		return "empty-sheet", "an empty sheet"
	case templateName.MatchString(sheet.Name):
		return "template", "a form to copy, not a test"
	}
	for _, c := range sheet.Cells {
		if c.Row <= templateRows && c.Kind == decode.Text && templateText.MatchString(c.Text) {
			return "template", "a form to copy, not a test"
		}
	}
	return "", ""
}

func (p *PageRead) count(page *layout.Page) {
	for _, c := range page.Sheet.Cells {
		if c.Blank() {
			continue
		}
		claim, ok := page.ClaimedBy(c.Row, c.Col)
		switch {
		case !ok:
			p.Unclaimed++
		case claim.Used:
			p.Used++
		default:
			p.SetAside++
		}
		p.Cells = append(p.Cells, CellRead{Cell: c, Claim: claim})
	}
}

func anything(r head.Records) bool {
	return len(r.Tests)+len(r.Prices)+len(r.Stock)+len(r.Sales)+len(r.Dimensions)+len(r.Extras)+len(r.Rework)+
		len(r.Notes)+len(r.Bench)+len(r.Enquiries)+len(r.Aliases) > 0
}
