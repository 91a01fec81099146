package flowsheet

import (
	"fmt"
	"regexp"
	"strings"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/words"
)

// forms recognises tabs that look like flow sheets and are no data: blank
// forms and examples.
type forms struct{}

// Name returns the stable name.
func (forms) Name() string { return "form or example" }

var templateCell = regexp.MustCompile(`(?i)^\s*(?:flow\s*sheet\s*)?(?:template|master\b.*(?:delete|copy)|example(?:\s+(?:only|data|numbers|sheet))?\b|blank\s*form|sample\s+form|do\s+not\s+delete|vorlage|beispiel|muster(?:blatt|formular)|leeres?\s+formular|exemples?\b|esempi[oi]?\b|ejemplos?\b|plantilla\b|(?:formulaire|fiche)\s+(?:vierge|type)\b|modulo\s+(?:vuoto|in\s+bianco)\b|formulario\s+(?:en\s+blanco|vac[ií]o)\b)`)

// modelAlone is a form in French where nothing stands behind it: "Modèle: TA-70"
// names the model of a head.
var modelAlone = regexp.MustCompile(`(?i)^\s*mod[eè]le(?:\s+(?:vierge|type))?\s*$`)

// Recognise claims the whole tab and says why.
func (s forms) Recognise(page *layout.Page, _ layout.Context) head.Records {
	why := formOrExample(page)
	if why == "" || !mentionsFlow(page) {
		return head.Records{}
	}
	for _, c := range page.Sheet.Cells {
		page.Claim(c.Row, c.Col, layout.Claim{By: s.Name(), Why: why})
	}
	return head.Records{Problems: source.Problems{{
		At: source.Ref{File: page.Path, Sheet: page.Sheet.Name}, Severity: source.SetAside, Kind: kindTemplate, Message: why,
	}}}
}

// formRows is how far down a form says that it is one.
const formRows = 6

func formOrExample(page *layout.Page) string {
	for _, hit := range words.FlowSheet().Find(words.Tokens(page.Sheet.Name)) {
		if hit.Role == words.Template {
			return fmt.Sprintf("the tab %q is a form or an example, not a test", page.Sheet.Name)
		}
	}
	if modelAlone.MatchString(page.Sheet.Name) {
		return fmt.Sprintf("the tab %q is a form or an example, not a test", page.Sheet.Name)
	}
	for _, c := range page.Sheet.Cells {
		if c.Kind != decode.Text || c.Row > formRows {
			continue
		}
		if templateCell.MatchString(c.Text) || modelAlone.MatchString(c.Text) && len(page.Sheet.Row(c.Row)) == 1 {
			return fmt.Sprintf("the tab says %q: a form or an example, not a test", strings.TrimSpace(c.Text))
		}
	}
	return ""
}
