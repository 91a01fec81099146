package flowsheet

import (
	"regexp"
	"strconv"
	"strings"

	"flowshelf/analysis/source"
	"flowshelf/ingest/decode"
	"flowshelf/ingest/layout"
	"flowshelf/ingest/parse"
	"flowshelf/ingest/words"
)

// KindUnread is the kind of problem that a page has which speaks as a flow sheet does and
// of which nothing was read.
const KindUnread = "flow-unread"

// fewestFigures is how many figures a page holds that may be a flow sheet: fewer make
// no curve.
const fewestFigures = 3

// The answers to whether a page that nothing was read from is a flow sheet.
const (
	noFlowSheet  = "no, it is something else"
	yetFlowSheet = "yes; it will be laid out anew"
)

// Unread tells of a page that is a flow sheet by its words and of which no recogniser
// has read or said anything: lifts with a port, a flow or its unit, or a port with the
// unit, and figures. What another tab is read with counts as read. About a page that
// names a head of the shop it asks; any other may be of another trade and is set aside.
func Unread(page *layout.Page, about layout.Context) source.Problems {
	r := &reader{names: namesOf(about), about: about}
	var found wordsOfFlow
	listed := ""
	for _, c := range page.Sheet.Cells {
		if claim, ok := page.ClaimedBy(c.Row, c.Col); ok && claim.By == (sideTabs{}).Name() {
			continue
		}
		found.add(c)
		if heads := r.names.heads.find(c.Text); c.Kind == decode.Text && len(heads) > 0 && listed == "" {
			listed = heads[0].means
		}
	}
	first, second, ok := found.pair()
	if !ok || found.figures < fewestFigures {
		return nil
	}
	said := strconv.Quote(first.Text)
	if second.Text != first.Text {
		said += " and " + strconv.Quote(second.Text)
	}
	message := "this sheet speaks of " + said + " as a flow sheet does, and holds no list of lifts with flows beside it that can be read; nothing was read from it"
	p := problemBook{r: r}
	at := page.Ref(first)
	if listed == "" {
		p.add(source.Problem{At: at, Severity: source.SetAside, Kind: KindUnread, Found: first.Text, Message: message, Hint: layAnew})
		return p.problems
	}
	answer, ok := p.ask(at, KindUnread, listed, first.Text, message, source.Question{Key: key("is a flow sheet", oneCell(listed, at, first.Text)),
		Text: "Is this a flow sheet of " + listed + "? If it is, " + layAnew, Choices: []string{noFlowSheet, yetFlowSheet},
		Evidence: "it names a head of the shop and speaks of " + said, Changes: "whether it is missed"})
	if ok && answer.Is(yetFlowSheet) {
		p.refuse(at, KindUnread+"-yet", listed, first.Text, message, layAnew)
	}
	return p.problems
}

const layAnew = "put the lifts under the word Lift, the flows in the columns beside them under Intake and Exhaust, and the head, the pressure and the flow unit above"

// wordsOfFlow are the first cells of a page that speak as a flow sheet does.
type wordsOfFlow struct {
	lift, port, unit, flow decode.Cell
	figures                int
}

// longestWord is how long a text is at most that may stand in a flow sheet; a longer
// one is an article about something.
const longestWord = 200

var opensWithFigure = regexp.MustCompile(`^\s*[<>~≈]?\s*[.,]?\d`)

func (w *wordsOfFlow) add(c decode.Cell) {
	if c.Kind == decode.Number || c.Kind == decode.Text && opensWithFigure.MatchString(c.Text) {
		w.figures++
	}
	if c.Kind != decode.Text || len(c.Text) > longestWord || isCode(c.Text) {
		return
	}
	keep := func(at *decode.Cell) {
		if at.Blank() {
			*at = c
		}
	}
	if unit, ok := parse.FindFlowUnit(c.Text); ok && unit.Volumetric() {
		keep(&w.unit)
	}
	for _, hit := range words.FlowSheet().Find(words.Tokens(c.Text)) {
		switch hit.Role {
		case words.Lift, words.LiftOverDiameter:
			keep(&w.lift)
		case words.Intake, words.Exhaust:
			keep(&w.port)
		default:
			if hit.Role == words.Flow || strings.Contains(hit.Phrase, "flow") { // "flow test", "flow at"
				keep(&w.flow)
			}
		}
	}
}

// pair returns two cells whose words together are a flow sheet's.
func (w *wordsOfFlow) pair() (first, second decode.Cell, ok bool) {
	for _, pair := range [][2]decode.Cell{{w.lift, w.port}, {w.lift, w.unit}, {w.lift, w.flow}, {w.port, w.unit}} {
		if !pair[0].Blank() && !pair[1].Blank() {
			return pair[0], pair[1], true
		}
	}
	return first, second, false
}
