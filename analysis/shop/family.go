package shop

import (
	"flowshelf/analysis/head"
	"flowshelf/analysis/quantity"
	"flowshelf/analysis/source"
)

type statedMoney = source.Stated[quantity.Money]

func familySheet() Sheet {
	return Sheet{
		Name: "Families", Title: "Engine families",
		Explanation: "One family a row. Heads are compared within a family, never across. " +
			"Without the anchors of the shape score no shape score is given.",
	}
}

// The titles of the two windows of lifts.
const (
	rangeFrom = "Range from"
	rangeTo   = "Range to"
	bandFrom  = "Band from"
	bandTo    = "Band to"
)

func boreBounds() bounds { return bounds{2.36, 5.3} } // 60-135 mm

func familyFields() []field[head.Family] {
	bore, lift := boreBounds(), bounds{0.01, 1.5} // lifts of the trade
	fields := []field[head.Family]{
		text(Column{Title: "Family"}, func(f *head.Family) *string { return &f.Name }),
		whole(Column{Title: "Heads a set", Also: []string{"Heads per set"}, Help: "How many heads one engine takes."},
			bounds{1, 12}, func(f *head.Family) *int { return &f.HeadsPerSet }),
		length(Column{Title: "Reference bore", Unit: "in", Help: "The fixture bore at which heads are compared."},
			bore, func(f *head.Family) *quantity.Length { return &f.ReferenceBore }),
		statedLength(Column{Title: "Engine bore", Unit: "in"}, bore,
			func(f *head.Family) *source.Stated[quantity.Length] { return &f.EngineBore }),
		statedLength(Column{Title: "Engine stroke", Also: []string{"Stroke"}, Unit: "in"}, bounds{1, 7},
			func(f *head.Family) *source.Stated[quantity.Length] { return &f.EngineStroke }),
		statedWhole(Column{Title: "Cylinders"}, bounds{1, 24},
			func(f *head.Family) *source.Stated[int] { return &f.Cylinders }),
		statedNumber(Column{Title: "Engine rpm", Unit: "rpm"}, bounds{500, 20000},
			func(f *head.Family) *source.Stated[float64] { return &f.EngineRPM }),
		length(Column{Title: rangeFrom, Also: []string{"Working range from"}, Unit: "in", Help: "The lifts that count for this family. Nothing is taken for a blank: without both ends no head of it is ranked."},
			lift, func(f *head.Family) *quantity.Length { return &f.RangeFrom }),
		length(Column{Title: rangeTo, Also: []string{"Working range to"}, Unit: "in"},
			lift, func(f *head.Family) *quantity.Length { return &f.RangeTo }),
		length(Column{Title: bandFrom, Also: []string{"Mid-lift band from"}, Unit: "in"},
			lift, func(f *head.Family) *quantity.Length { return &f.BandFrom }),
		length(Column{Title: bandTo, Also: []string{"Mid-lift band to"}, Unit: "in"},
			lift, func(f *head.Family) *quantity.Length { return &f.BandTo }),
		money(Column{Title: "Worth of a cfm", Unit: "a set", Help: "What one cfm of working average is worth to this family's customers. Blank: the shelf's going rate."},
			func(f *head.Family) *statedMoney { return &f.Worth }),
		text(Column{Title: "Base head", Help: "The head that extra cfm and extra cost are counted from."},
			func(f *head.Family) *string { return &f.BaseHead }),
	}
	return append(fields, append(append(anchorFields(), mustFields()...), engineFields()...)...)
}

func anchorFields() []field[head.Family] {
	cfm, weight := bounds{1, 2000}, bounds{0, 1}
	return []field[head.Family]{
		flow(Column{Title: "Mid-lift low", Unit: "cfm", Help: "The mid-lift average that scores 0."}, cfm,
			func(f *head.Family) *quantity.Flow { return &f.Anchors.MidLow }),
		flow(Column{Title: "Mid-lift high", Unit: "cfm", Help: "The mid-lift average that scores 100."}, cfm,
			func(f *head.Family) *quantity.Flow { return &f.Anchors.MidHigh }),
		flow(Column{Title: "Peak low", Unit: "cfm", Help: "The peak in the range that scores 0."}, cfm,
			func(f *head.Family) *quantity.Flow { return &f.Anchors.PeakLow }),
		flow(Column{Title: "Peak high", Unit: "cfm", Help: "The peak in the range that scores 100."}, cfm,
			func(f *head.Family) *quantity.Flow { return &f.Anchors.PeakHigh }),
		number(Column{Title: "Stall low", Unit: "x top of range", Help: "A stall at this share of the range's top scores 0.", Default: "0.7"}, bounds{0.1, 0.99},
			func(f *head.Family) *float64 { return &f.Anchors.StallLow }),
		number(Column{Title: "Weight mid-lift", Default: "0.5"}, weight,
			func(f *head.Family) *float64 { return &f.Anchors.WMid }),
		number(Column{Title: "Weight stall", Default: "0.3"}, weight,
			func(f *head.Family) *float64 { return &f.Anchors.WStall }),
		number(Column{Title: "Weight peak", Default: "0.2"}, weight,
			func(f *head.Family) *float64 { return &f.Anchors.WPeak }),
	}
}

func mustFields() []field[head.Family] {
	return []field[head.Family]{
		statedSpeed(Column{Title: "Lazy below", Unit: "ft/s", Default: "500",
			Help: "Air speed at the minimum cross-section (common practice, no source)."}, bounds{50, 1500},
			func(f *head.Family) *source.Stated[quantity.Speed] { return &f.Lazy }),
		statedSpeed(Column{Title: "Choked above", Unit: "ft/s", Default: "640"}, bounds{50, 1500},
			func(f *head.Family) *source.Stated[quantity.Speed] { return &f.Choked }),
		choice(Column{Title: "Springs are a must", Choices: yesNo(), Default: "no",
			Help: "yes: a head whose springs do not reach the range's top is left out."},
			func(f *head.Family) *bool { return &f.SpringsAreMust }, false, true),
		choice(Column{Title: "Air speed is a must", Choices: yesNo(), Default: "no",
			Help: "yes: a lazy or choked head is left out."},
			func(f *head.Family) *bool { return &f.AirIsMust }, false, true),
	}
}

// engineFields are the cam and the power that a family may state. They order
// nothing: what they allow to be worked out is shown beside the ranking.
func engineFields() []field[head.Family] {
	return []field[head.Family]{
		statedLength(Column{Title: "Cam lobe lift", Unit: "in", Help: "At the tappet, of the usual cam. Blank: no average over the time the valve is open."},
			bounds{0.1, 0.8}, func(f *head.Family) *source.Stated[quantity.Length] { return &f.CamLobe }),
		statedNumber(Column{Title: "Rocker ratio", Unit: "x"}, bounds{0.8, 2.5},
			func(f *head.Family) *source.Stated[float64] { return &f.RockerRatio }),
		statedNumber(Column{Title: "Cam duration at .050", Unit: "deg", Help: "Between the .050 in tappet lift points."}, bounds{120, 340},
			func(f *head.Family) *source.Stated[float64] { return &f.CamDuration }),
		statedNumber(Column{Title: "Target power", Unit: "hp", Help: "Of the reference engine. Blank: no flow wanted is shown."}, bounds{20, 3000},
			func(f *head.Family) *source.Stated[float64] { return &f.TargetPower }),
	}
}
