package main

import (
	"math"

	"flowshelf/analysis/compare"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

// familyJSON is one family's comparison for a script. A number that could not
// be had is null, never zero.
type familyJSON struct {
	Family      string          `json:"family"`
	Worth       *float64        `json:"worth"`
	WorthOrigin string          `json:"worth_origin"`
	Rows        []rowJSON       `json:"rows"`
	Unpriced    []rowJSON       `json:"unpriced"`
	BelowLine   []rowJSON       `json:"below_line"`
	Advertised  []rowJSON       `json:"advertised"`
	NotRanked   []notRankedJSON `json:"not_ranked"`
	Problems    []problemJSON   `json:"problems"`
	Frontier    []stepJSON      `json:"frontier"`
	Cam         string          `json:"cam"` // the cam behind cam_avg, "" for none
	EngineRPM   *float64        `json:"engine_rpm"`
}

// stepJSON is a head that is the best buy for some worth of a cfm, and what each
// cfm over the step before costs.
type stepJSON struct {
	Label       string   `json:"label"`
	From        *float64 `json:"from"`
	To          *float64 `json:"to"` // null for without end
	PerAddedCFM *float64 `json:"per_added_cfm"`
	U           *float64 `json:"u"`
	Noise       bool     `json:"inside_noise"`
}

// equivalentJSON is what an untested head's working average comes to on the
// shop's own bench, with its 95 % range.
type equivalentJSON struct {
	CFM   *float64 `json:"cfm"`
	Low   *float64 `json:"low"`
	High  *float64 `json:"high"`
	Words string   `json:"words"`
}

// rowJSON is one row of the Ranking sheet. Flows are cfm at the reference
// pressure and bore, lifts inches, money the shop's currency a set.
type rowJSON struct {
	Place       *int     `json:"place"`
	Shared      bool     `json:"shared"`
	TiedWith    []string `json:"tied_with"`
	PlaceBest   *int     `json:"place_best"`
	PlaceWorst  *int     `json:"place_worst"`
	FirstIn10   float64  `json:"first_in_10"`
	Head        string   `json:"head"`
	State       string   `json:"state"`
	Label       string   `json:"label"`
	Supplier    string   `json:"supplier"`
	Grade       string   `json:"grade"`
	Flags       []string `json:"flags"`
	Sell        *float64 `json:"sell"`
	SellProp    bool     `json:"sell_proposed"`
	Usable      *float64 `json:"usable"`
	Landed      *float64 `json:"landed"`
	Margin      *float64 `json:"margin"`
	WorkingAvg  *float64 `json:"working_avg"`
	U           *float64 `json:"u"`
	MidAvg      *float64 `json:"mid_avg"`
	MidArea     *float64 `json:"mid_area"`
	Peak        *float64 `json:"peak"`
	PeakLift    *float64 `json:"peak_lift"`
	PeakAll     *float64 `json:"peak_all"`
	PeakAllLift *float64 `json:"peak_all_lift"`
	Low         *float64 `json:"low"`
	Mid         *float64 `json:"mid"`
	High        *float64 `json:"high"`
	AtTop       *float64 `json:"at_top"`
	Coverage    *float64 `json:"coverage"`
	Verdict     string   `json:"verdict"`
	Bore        *float64 `json:"bore"`
	BoreHow     string   `json:"bore_how"`
	ExhaustAvg  *float64 `json:"exhaust_avg"`
	EI          *float64 `json:"exhaust_intake"`

	Shape          *shapeJSON `json:"shape"`
	PerCFM         *float64   `json:"per_cfm"`
	PerExtraCFM    *float64   `json:"per_extra_cfm"`
	Base           bool       `json:"base"`
	Value          *float64   `json:"value"`
	ValueU         *float64   `json:"value_u"`
	BestBuyFrom    *float64   `json:"best_buy_from"` // null for never the best buy
	BestBuyTo      *float64   `json:"best_buy_to"`   // null for without end
	BeatenBy       []string   `json:"beaten_by"`
	TiePrice       *float64   `json:"tie_price"`
	TieBelowLanded bool       `json:"tie_price_below_landed"`
	AirSpeed       *float64   `json:"air_speed"`
	AirVerdict     string     `json:"air_verdict"`
	PerCC          *float64   `json:"peak_per_cc"`
	Springs        string     `json:"springs"`
	CamAvg         *float64   `json:"cam_avg"` // over the time the valve is open
	MachIndex      *float64   `json:"mach_index"`
	MachRests      string     `json:"mach_rests_on"`
	RPMAt50        *float64   `json:"rpm_at_index_5"`
	RPMAt60        *float64   `json:"rpm_at_index_6"`
	MeanAirSpeed   *float64   `json:"air_speed_mean_piston"`
	Sentence       string     `json:"sentence"`
	Reasons        []string   `json:"reasons"`

	Equivalent *equivalentJSON `json:"shop_equivalent"` // of an untested head, null where nothing is implied
}

type shapeJSON struct {
	Mid     float64 `json:"mid"`
	Stall   float64 `json:"stall"`
	Peak    float64 `json:"peak"`
	Score   float64 `json:"score"`
	AtLeast bool    `json:"at_least"`
}

type notRankedJSON struct {
	Head    string   `json:"head"`
	State   string   `json:"state"`
	Label   string   `json:"label"`
	Reason  string   `json:"reason"`
	Missing []string `json:"missing"`
	Held    bool     `json:"held"`
	Row     *rowJSON `json:"row"`
}

func familyOf(c compare.Comparison) familyJSON {
	f := familyJSON{
		Family: c.Family.Name, WorthOrigin: c.Worth.Origin,
		Rows: rows(c.Ranked), Unpriced: rows(c.Unpriced), BelowLine: rows(c.BelowLine), Advertised: rows(c.Advertised),
		NotRanked: []notRankedJSON{}, Problems: problemsOf(c.Problems),
	}
	f.frontier(c)
	if c.Worth.Known {
		f.Worth = finite(c.Worth.PerCFM)
	}
	for _, n := range c.NotRanked {
		out := notRankedJSON{Head: n.Head, State: n.State, Label: n.Label, Reason: n.Reason, Missing: list(n.Missing), Held: n.Held}
		if n.Entry != nil {
			row := rowOf(*n.Entry)
			out.Row = &row
		}
		f.NotRanked = append(f.NotRanked, out)
	}
	return f
}

// frontier fills in the steps and the engine they are shown beside.
func (f *familyJSON) frontier(c compare.Comparison) {
	f.Frontier, f.Cam = []stepJSON{}, c.Cam
	if c.Engine.Known {
		f.EngineRPM = finite(c.Engine.RPM)
	}
	for _, s := range c.Frontier {
		step := stepJSON{Label: s.Label, From: finite(s.Range.From), PerAddedCFM: maybe(s.Margin), Noise: s.Noise}
		if s.Range.To >= 0 {
			step.To = finite(s.Range.To)
		}
		if s.Margin.Known {
			step.U = finite(s.U)
		}
		f.Frontier = append(f.Frontier, step)
	}
}

func rows(entries []compare.Entry) []rowJSON {
	out := []rowJSON{}
	for _, e := range entries {
		out = append(out, rowOf(e))
	}
	return out
}

func rowOf(e compare.Entry) rowJSON {
	r := rowJSON{
		Place: positive(e.Place.Number), Shared: e.Place.Shared, TiedWith: list(e.Place.TiedWith),
		PlaceBest: positive(e.Place.Best), PlaceWorst: positive(e.Place.Worst), FirstIn10: e.Place.FirstIn10,
		Head: e.Head, State: e.State, Label: e.Label, Supplier: e.Supplier, Grade: string(rune(e.Grade)), Flags: flagWords(e.Flags),
		Sell: money(e.Cost.Sell), SellProp: e.Cost.Proposed, Usable: money(e.Cost.Usable), Landed: money(e.Cost.Landed),
		Margin: maybe(e.Cost.Margin), Low: maybe(e.Low), Mid: maybe(e.Mid), High: maybe(e.High), AtTop: maybe(e.AtTop),
		EI: maybe(e.EI.Maybe), PerCFM: maybe(e.PerCFM), PerExtraCFM: maybe(e.PerExtra), Base: e.IsBase, Value: maybe(e.Value),
		BeatenBy: list(e.BeatenBy), TiePrice: maybe(e.TiePrice), TieBelowLanded: e.TieBelow == compare.BelowLanded,
		AirSpeed: maybe(e.Air.Speed), AirVerdict: e.Air.Verdict, PerCC: maybe(e.PerCC), Springs: e.SpringsTo.Words,
		MachIndex: maybe(e.Demand.Mach), MachRests: e.Demand.Rests, RPMAt50: maybe(e.Demand.At50), RPMAt60: maybe(e.Demand.At60),
		MeanAirSpeed: maybe(e.Demand.MeanSpeed), Sentence: e.Verdict, Reasons: list(e.Reasons),
	}
	if e.Value.Known {
		r.ValueU = finite(e.ValueU)
	}
	if e.Shape.Known {
		r.Shape = &shapeJSON{e.Shape.Mid, e.Shape.Stall, e.Shape.Peak, e.Shape.Score, e.Shape.AtLeast}
	}
	if e.BestBuy != nil {
		r.BestBuyFrom = finite(e.BestBuy.From)
		if e.BestBuy.To >= 0 {
			r.BestBuyTo = finite(e.BestBuy.To)
		}
	}
	if q := e.Equivalent; q.Known {
		r.Equivalent = &equivalentJSON{finite(q.Value), finite(q.Low), finite(q.High), q.Words}
	}
	r.flow(e.Intake)
	if e.Exhaust != nil {
		r.ExhaustAvg = maybe(e.Exhaust.Working)
	}
	return r
}

// flow fills in what the intake curve says.
func (r *rowJSON) flow(p *compare.PortResult) {
	if p == nil {
		return
	}
	r.WorkingAvg, r.MidAvg, r.MidArea, r.CamAvg = maybe(p.Working), maybe(p.MidMean), maybe(p.MidArea), maybe(p.CamMean)
	if p.Working.Known {
		r.U = finite(p.WorkingU)
	}
	if p.PeakIn.Flow > 0 {
		r.Peak, r.PeakLift = finite(p.PeakIn.Flow.CFM()), finite(p.PeakIn.Lift.In())
	}
	if p.PeakAll.Flow > 0 {
		r.PeakAll, r.PeakAllLift = finite(p.PeakAll.Flow.CFM()), finite(p.PeakAll.Lift.In())
	}
	r.Coverage, r.Verdict, r.BoreHow = finite(p.Coverage), p.Words, p.BoreHow.String()
	if p.Bore.Known {
		r.Bore = finite(p.Bore.Value.In())
	}
}

func maybe(m compare.Maybe) *float64 {
	if !m.Known {
		return nil
	}
	return finite(m.Value)
}

// finite is null for what JSON has no number for.
func finite(x float64) *float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	return &x
}

func positive(n int) *int {
	if n <= 0 {
		return nil
	}
	return &n
}

func money(m source.Stated[quantity.Money]) *float64 {
	if !m.Known {
		return nil
	}
	return finite(m.Value.Float())
}

func flagWords(flags []compare.Flag) []string {
	out := []string{}
	for _, f := range flags {
		out = append(out, f.Words)
	}
	return out
}

// list is never null.
func list(words []string) []string {
	if words == nil {
		return []string{}
	}
	return words
}
