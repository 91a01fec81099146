package pricing

import (
	"fmt"
	"strings"

	"flowshelf/analysis/pricing"
	"flowshelf/export/book"
)

// workOrder writes the heads in the order of their value with their tie groups,
// and the same groups as they would be without each of them, for the strip.
func (w *writer) workOrder() {
	s, header := w.work, w.nextWork
	s.Say(header-1, 1, "In the order of value; a tie group goes by the position of its first", book.Section)
	w.ranked(header, 1, "k", "Position from the top", "", func(k int) book.Value { return book.Count(k + 1) })
	w.ranked(header, 2, "row k", "Head number", `IF({k}<={placed},MATCH({k},{position*},0),"")`, w.ofRank(func(_ int, row int) book.Value { return book.Count(row + 1) }))
	of := func(name string) string { return fmt.Sprintf(`IF({row k}="","",INDEX({%s*},{row k}))`, name) }
	out := w.result.Outcomes
	w.ranked(header, 3, "value k", "Value", of("sorted by"), w.ofRank(func(_, row int) book.Value { return shown(out[row].Value) }))
	w.ranked(header, 4, "u k", "± value", of("value u"), w.ofRank(func(_, row int) book.Value { return book.Number(out[row].ValueU) }))
	w.ranked(header, 5, "floor k", "Decides nothing below", of("undecided"), w.ofRank(func(_, row int) book.Value { return book.Number(out[row].Undecided) }))
	w.ranked(header, 6, "group k", "Tie group", "", nil)
	w.groups(header+1, 6, "group k", -1)
	if w.moving() {
		for i := range w.Rows {
			name := fmt.Sprintf("without %d", i)
			w.ranked(header, 7+i, name, "Without "+w.Rows[i].Label, "", nil)
			w.groups(header+1, 7+i, name, i)
		}
	}
	w.nextWork = header + w.n + 3
}

// ranked writes a column with one cell for each position.
func (w *writer) ranked(header, col int, name, title, formula string, result func(k int) book.Value) {
	style := book.Body
	if col > 2 {
		style = style.As(book.Hundredth)
	}
	w.title(w.work, header, col, title, 0, style)
	w.names[name] = place{w.work, header + 1, col, w.n, 0}
	if result == nil {
		return
	}
	for k := range w.Rows {
		if formula == "" {
			w.work.Set(header+1+k, col, result(k), style)
			continue
		}
		w.formula(w.work, header+1+k, col, k, formula, result(k), style)
	}
}

// ofRank shows something of the head at a position, nothing beyond the last.
func (w *writer) ofRank(show func(k, row int) book.Value) func(int) book.Value {
	return func(k int) book.Value {
		if k >= len(w.result.Order) {
			return book.Value{}
		}
		return show(k, w.result.Order[k])
	}
}

// groups writes the tie groups down the positions, as they are (row -1) or would
// be without one head, whose own position repeats the one before it.
func (w *writer) groups(top, col int, name string, row int) {
	before := "{" + name + "^}"
	leader := func(of string) string { return fmt.Sprintf("INDEX({%s*},%s)", of, before) }
	sure := sureOver(leader("value k"), leader("u k"), leader("floor k"), "{value k}", "{u k}", "{floor k}")
	next := fmt.Sprintf("IF(%s,{k},%s)", sure, before)
	results := w.result.Groups
	if row >= 0 {
		next = fmt.Sprintf("IF({k}={position@%d},%s,IF(%s=0,{k},%s))", row, before, before, next)
		results = w.result.Outcomes[row].Without
	}
	for k := range w.Rows {
		words := next
		switch {
		case k == 0 && row < 0:
			words = "1"
		case k == 0:
			words = fmt.Sprintf("IF({position@%d}=1,0,1)", row)
		}
		missing := `{row k}=""`
		if row >= 0 {
			missing = fmt.Sprintf(`OR({row k}="",{counts@%d}=0)`, row)
		}
		result := book.Value{}
		if k < len(results) {
			result = book.Count(results[k])
		}
		w.formula(w.work, top+k, col, k, fmt.Sprintf(`IF(%s,"",%s)`, missing, words), result, book.Body)
	}
}

// workRate writes the slopes between all pairs of heads and their median, the
// going rate of the shelf.
func (w *writer) workRate() {
	s, header := w.work, w.nextWork
	const fewest = 4 // heads a going rate takes
	s.Say(header-1, 1, "Going rate: the median of what each pair of heads asks for a cfm (Theil-Sen); heads as delivered, with a place and a price", book.Section)
	s.Say(header, 1, "Going rate, a cfm", book.Body.Strong())
	rate := quiet(w.result.GoingRate)
	if !w.moving() {
		w.names["going rate"] = place{s, header, 2, 0, 0}
		s.Set(header, 2, rate, book.Body.As(w.cents))
		s.Say(header, 3, fmt.Sprintf("worked out when this was written: with more than %d heads it is not live", mostMoving), book.Body)
		w.nextWork = header + 3
		return
	}
	w.single(s, header, 2, "going rate", fmt.Sprintf(`IF(SUM({as delivered*})<%d,"",IF(COUNT({slopes*})=0,"",IF(MEDIAN({slopes*})>0,MEDIAN({slopes*}),"")))`, fewest), rate, book.Body.As(w.cents))
	w.lay(s, header+1, 2, []live{{"As delivered", 0, "as delivered", `IF(AND({priced}=1,N({rework})=0),1,0)`, book.Body,
		func(i int, o pricing.Outcome) book.Value { return yes(w.AsDelivered(i, o)) }}})
	w.labels(s, header+1)
	for j := range w.Rows {
		w.title(s, header+1, 3+j, w.Rows[j].Label, 0, book.Body.As(w.cents))
		for i := range w.Rows {
			if i <= j {
				continue
			}
			w.formula(s, header+2+i, 3+j, i, fmt.Sprintf(`IF(AND({as delivered}=1,{as delivered@%[1]d}=1,{flow}<>{flow@%[1]d}),({usable priced}-{usable priced@%[1]d})/({flow}-{flow@%[1]d}),"")`, j),
				w.slope(i, j), book.Body.As(w.cents))
		}
	}
	w.names["slopes"] = place{sheet: s, row: header + 2, col: 3, rows: w.n, cols: w.n}
	w.nextWork = header + w.n + 4
}

func (w *writer) slope(i, j int) book.Value {
	a, b := w.result.Outcomes[i], w.result.Outcomes[j]
	if !w.AsDelivered(i, a) || !w.AsDelivered(j, b) || w.Rows[i].Flow.Value == w.Rows[j].Flow.Value {
		return book.Value{}
	}
	return book.Number((a.Usable.Value - b.Usable.Value) / (w.Rows[i].Flow.Value - w.Rows[j].Flow.Value))
}

// strip writes what other sell prices do, each alone.
func (w *writer) strip() {
	s := w.steps
	header := w.page(s, "Strip: one sell price moved at a time",
		"Each row moves that head's sell price alone, by so much of it; the others stay as they are on the sheet Pricing.")
	s.Say(header, 1, "Value at the worth of a cfm", book.Section)
	w.labels(s, header+1)
	w.moved(header+1, "strip value", w.dollars, func(k int) string { return fmt.Sprintf(`IF({value}="","",{value}-{change %d}*{sell})`, k) },
		func(t pricing.Step) book.Value { return quiet(t.Value) })
	second := header + w.n + 4
	s.Say(second, 1, "Place", book.Section)
	if !w.moving() {
		s.Say(second+1, 1, fmt.Sprintf("With more than %d heads the places are left out.", mostMoving), book.Body)
		w.paper(s, 0)
		return
	}
	w.labels(s, second+1)
	w.helpers()
	w.moved(second+1, "strip place", book.General, func(k int) string {
		number := `IF({joins K}=1,{group K}-IF({position}<{group K},1,0),{ahead K}+1)`
		words := fmt.Sprintf(`IF({counts}=0,"",IF({joins K}+{followed K}>0,%[1]s&"=",%[1]s))`, number)
		return strings.ReplaceAll(words, " K}", fmt.Sprintf(" %d}", k))
	}, func(t pricing.Step) book.Value { return placeOf(t.Place) })
	s.Freeze(0, 1)
	w.paper(s, 0)
}

// moved writes one column for each step of the strip.
func (w *writer) moved(header int, name string, format book.Format, formula func(k int) string, result func(pricing.Step) book.Value) {
	style := book.Body.As(format).To(book.Right)
	for k, change := range pricing.Changes() {
		w.names[fmt.Sprintf("change %d", k)] = place{w.steps, header, 2 + k, 0, 0}
		w.steps.Set(header, 2+k, book.Number(change), book.Header.As(book.SignedPct).To(book.Right))
		w.steps.Width(2+k, 10)
		w.names[fmt.Sprintf("%s %d", name, k)] = place{w.steps, header + 1, 2 + k, w.n, 0}
		for i, o := range w.result.Outcomes {
			look := style
			look.Bottom = book.Hair
			if change == 0 {
				look = look.Strong()
			}
			w.formula(w.steps, header+1+i, 2+k, i, formula(k), result(o.Strip[k]), look)
		}
	}
}

// helpers write the way to each place of the strip: how many others are above,
// the tie group of the last of them, whether the head joins it, and whether the
// next one below joins the head.
func (w *writer) helpers() {
	header, col := w.nextWork, 2
	w.labels(w.work, header)
	w.work.Say(header-1, 1, "The way to the places of the strip", book.Section)
	passed := func(n string) string { return fmt.Sprintf("%[1]s+IF({position}<=%[1]s,1,0)", n) }
	at := func(of, n string) string { return fmt.Sprintf("INDEX({%s*},%s)", of, n) }
	for k, change := range pricing.Changes() {
		value, ahead, group := fmt.Sprintf("{strip value %d}", k), fmt.Sprintf("{ahead %d}", k), fmt.Sprintf("{group %d}", k)
		below := passed("(" + ahead + "+1)")
		step := func(show func(pricing.Step) book.Value) func(int, pricing.Outcome) book.Value {
			return func(_ int, o pricing.Outcome) book.Value {
				if o.Place.Number == 0 {
					return book.Value{}
				}
				return show(o.Strip[k])
			}
		}
		when := func(words string) string { return fmt.Sprintf(`IF({counts}=0,"",%s)`, words) }
		w.lay(w.work, header, col, []live{
			{fmt.Sprintf("%+.1f %%: above", 100*change), 0, fmt.Sprintf("ahead %d", k),
				when(fmt.Sprintf(`SUMPRODUCT(({counts*}=1)*({number*}<>{number})*({sorted by*}>%[1]s))+SUMPRODUCT(({counts*}=1)*({number*}<{number})*({sorted by*}=%[1]s))`, value)),
				book.Body, step(func(t pricing.Step) book.Value { return book.Count(t.Ahead) })},
			{fmt.Sprintf("%+.1f %%: group", 100*change), 0, fmt.Sprintf("group %d", k),
				when(fmt.Sprintf(`IF(%s=0,0,INDEX({without #*},%s))`, ahead, passed(ahead))),
				book.Body, step(func(t pricing.Step) book.Value { return book.Count(t.Group) })},
			{fmt.Sprintf("%+.1f %%: joins", 100*change), 0, fmt.Sprintf("joins %d", k),
				when(fmt.Sprintf(`IF(%s=0,0,IF(%s,0,1))`, ahead, sureOver(at("value k", group), at("u k", group), at("floor k", group), value, "{value u}", "{undecided}"))),
				book.Body, step(func(t pricing.Step) book.Value { return yes(t.Joins) })},
			{fmt.Sprintf("%+.1f %%: followed", 100*change), 0, fmt.Sprintf("followed %d", k),
				when(fmt.Sprintf(`IF(%s>={placed}-1,0,IF(%s,0,1))`, ahead, sureOver(value, "{value u}", "{undecided}", at("value k", below), at("u k", below), at("floor k", below)))),
				book.Body, step(func(t pricing.Step) book.Value { return yes(t.Followed) })},
		})
		col += 4
	}
	w.nextWork = header + w.n + 3
}
