package comparetest

import (
	"time"

	"flowshelf/analysis/head"
	"flowshelf/analysis/source"
)

func smallLifts() []float64 { return []float64{.100, .200, .300, .400, .450, .500, .550, .600, .650} }

func largeLifts() []float64 { return []float64{.100, .200, .300, .400, .500, .600, .700, .800} }

// own enters an intake and an exhaust test of one sample of the shop's bench.
func own(s *Sheet, c Column, lifts, intake, exhaust []float64) []head.Test {
	c.Class, c.By, c.Lifts = head.Own, "Saltmarsh bench", lifts
	if c.InH2O == 0 {
		c.InH2O = 28
	}
	in, ex := c, c
	in.Port, in.CFM = head.Intake, intake
	ex.Port, ex.CFM, ex.Pipe, ex.Rows = head.Exhaust, exhaust, head.WithPipe, nil
	return []head.Test{s.Test(in), s.Test(ex)}
}

func smallTests() head.Records {
	var r head.Records
	book := Sheet{File: "bench/Small Eight shootout.xlsx", Name: "Flow"}
	day := book.Day(2026, time.March, 3)
	add := func(s *Sheet, name, state, sample string, intake, exhaust []float64) {
		r.Tests = append(r.Tests, own(s, Column{Head: name, State: state, Sample: sample, BoreIn: 4.030, Day: day}, smallLifts(), intake, exhaust)...)
	}
	add(&book, "LKC-07", "", "07-A", []float64{60, 116, 164, 193, 200, 204, 205, 204, 203}, []float64{48, 92, 122, 138, 143, 146, 148, 149, 150})
	add(&book, "PW-33", "", "33-A", []float64{58, 117, 173, 224, 248, 262, 264, 262, 257}, []float64{52, 101, 137, 160, 168, 173, 176, 178, 179})
	vr := Sheet{File: "bench/VR-84 before after.xlsx", Name: "VR-84"}
	add(&vr, "VR-84", "As del.", "84-A", []float64{57, 114, 170, 212, 222, 226, 222, 228, 229}, []float64{49, 94, 127, 148, 154, 158, 161, 163, 164})
	add(&vr, "VR-84", "Valve job", "84-A", []float64{66, 131, 184, 220, 231, 236, 234, 239, 240}, []float64{55, 105, 141, 163, 170, 174, 177, 179, 180})
	add(&vr, "VR-84", "VJ+blend", "84-A", []float64{68, 135, 190, 228, 240, 247, 251, 253, 253}, []float64{55, 106, 143, 166, 173, 178, 181, 183, 184})
	pw := Sheet{File: "bench/PW-31 adv v tested.xlsx", Name: "Sheet1"}
	add(&pw, "PW-31", "", "31-A", []float64{61, 121, 174, 212, 226, 235, 240, 242, 240}, []float64{52, 100, 134, 156, 163, 168, 171, 173, 174})
	noPipe := Column{Head: "PW-31", Sample: "31-A", Port: head.Exhaust, Class: head.Own, Pipe: head.WithoutPipe, BoreIn: 4.030, InH2O: 28,
		Lifts: smallLifts(), CFM: []float64{51, 96, 128, 148, 155, 159, 162, 164, 165}, By: "Saltmarsh bench", Day: day}
	r.Tests = append(r.Tests, pw.Test(noPipe))
	ob := Sheet{File: "bench/OB-4 raw.xlsx", Name: "OB-4"}
	add(&ob, "OB-4", "", "4-A", []float64{70, 141, 204, 250, 264, 275, 282, 286, 288}, []float64{57, 114, 157, 187, 196, 203, 208, 211, 213})
	low := Sheet{File: "bench/VR-81 25in.xlsx", Name: "VR-81"}
	r.Tests = append(r.Tests, own(&low, Column{Head: "VR-81", Sample: "81-A", BoreIn: 4.030, InH2O: 25, Day: day}, smallLifts(),
		[]float64{63.3, 125.7, 179.5, 220.2, 233.4, 242.8, 248.5, 251.3, 252.3}, []float64{52.9, 105.8, 147.4, 177.6, 188.0, 196.5, 202.2, 206.0, 208.8})...)
	r.Tests = append(r.Tests, twoCylinders()...)
	return r
}

// twoCylinders is LKC-12: sample B in March on two cylinders, and sample A in
// January, 0.6 % lower.
func twoCylinders() []head.Test {
	s := Sheet{File: "bench/LKC-12 cyl 1 and 3.xlsx", Name: "LKC-12"}
	day := s.Day(2026, time.March, 9)
	exhaust := []float64{56, 107, 144, 167, 174, 178, 181, 183, 184}
	one := own(&s, Column{Head: "LKC-12", Sample: "B", Mark: "1", BoreIn: 4.030, Day: day}, smallLifts(),
		[]float64{68, 135, 192, 231, 242, 249, 252, 253, 252}, exhaust)
	three := own(&s, Column{Head: "LKC-12", Sample: "B", Mark: "3", BoreIn: 4.030, Day: day}, smallLifts(),
		[]float64{68, 133, 188, 227, 238, 245, 248, 249, 248}, exhaust)
	old := Sheet{File: "bench/LKC-12 January.xlsx", Name: "LKC-12"}
	lower := func(cfm []float64) []float64 {
		out := make([]float64, len(cfm))
		for i, q := range cfm {
			out[i] = q * 0.994
		}
		return out
	}
	january := own(&old, Column{Head: "LKC-12", Sample: "A", BoreIn: 4.030, Day: old.Day(2026, time.January, 20)}, smallLifts(),
		lower([]float64{68, 134, 190, 229, 240, 247, 250, 251, 250}), lower(exhaust))
	return append(append(one, three[0]), january...)
}

// smallAdverts are the suppliers' own figures for Small Eight heads.
func smallAdverts() head.Records {
	var r head.Records
	pw := Sheet{File: "Pellworth flow chart 2026.xlsx", Name: "Flow"}
	whole := []float64{.200, .300, .400, .500, .600}
	claim := func(s *Sheet, name, by string, bore float64, port head.Port, lifts, cfm []float64) {
		c := Column{Head: name, Port: port, Class: head.Advertised, BoreIn: bore, InH2O: 28, Lifts: lifts, CFM: cfm, By: by}
		if port == head.Exhaust {
			c.Pipe = head.WithPipe
		}
		r.Tests = append(r.Tests, s.Test(c))
	}
	claim(&pw, "PW-31", "Pellworth Foundry", 4.155, head.Intake, whole, []float64{136, 196, 240, 266, 278})
	claim(&pw, "PW-31", "Pellworth Foundry", 4.155, head.Exhaust, whole, []float64{118, 160, 190, 208, 218})
	claim(&pw, "PW-33", "Pellworth Foundry", 4.155, head.Intake, whole, []float64{140, 205, 252, 287, 305})
	claim(&pw, "PW-33", "Pellworth Foundry", 4.155, head.Exhaust, whole, []float64{119, 163, 195, 214, 224})
	// A test of the supplier's own on another fixture, with its conditions.
	r.Tests = append(r.Tests, pw.Test(Column{Head: "PW-33", Port: head.Intake, Class: head.Supplier, BoreIn: 4.125, InH2O: 28,
		Lifts: smallLifts(), CFM: []float64{58, 117, 174, 226, 250, 264, 266, 264, 259}, By: "Pellworth Foundry"}))
	large := []float64{.200, .300, .400, .500, .600, .700, .800}
	claim(&pw, "PW-46", "Pellworth Foundry", 4.600, head.Intake, large, []float64{160, 238, 305, 348, 368, 374, 375})
	claim(&pw, "PW-46", "Pellworth Foundry", 4.600, head.Exhaust, large, []float64{131, 186, 230, 259, 277, 288, 294})
	fine := []float64{.200, .300, .400, .500, .550, .600}
	lk := Sheet{File: "Larkmoor flow.xlsx", Name: "Flow"}
	claim(&lk, "LKC-07", "Larkmoor Castings", 4.030, head.Intake, fine, []float64{117, 165, 194, 205, 206, 205})
	claim(&lk, "LKC-12", "Larkmoor Castings", 4.030, head.Intake, fine, []float64{136, 193, 233, 251, 254, 255})
	claim(&lk, "LKC-41", "Larkmoor Castings", 4.310, head.Intake, []float64{.200, .300, .400, .500, .600}, []float64{127, 185, 229, 256, 268})
	ob := Sheet{File: "Oastbridge flow.xlsx", Name: "Flow"}
	claim(&ob, "OB-4", "Oastbridge Machine", 4.030, head.Intake, fine, []float64{144, 208, 255, 281, 288, 292})
	claim(&ob, "OB-44", "Oastbridge Machine", 4.310, head.Intake, large, []float64{157, 231, 294, 337, 361, 372, 376})
	vr := Sheet{File: "Vintner flow.xlsx", Name: "Flow"}
	claim(&vr, "VR-81", "Vintner Road Heads", 4.030, head.Intake, fine, []float64{134, 192, 235, 259, 265, 268})
	claim(&vr, "VR-84", "Vintner Road Heads", 4.030, head.Intake, fine, []float64{124, 184, 228, 243, 240, 248})
	claim(&vr, "VR-49", "Vintner Road Heads", 4.600, head.Intake, large, []float64{151, 225, 285, 326, 351, 362, 365})
	return r
}

func largeTests() head.Records {
	var r head.Records
	old := Sheet{File: "bench/old eights and fours.xlsx", Name: "LKC-41 4.310 28in"}
	day := old.Day(2026, time.March, 4)
	r.Tests = append(r.Tests, own(&old, Column{Head: "LKC-41", Sample: "41-A", BoreIn: 4.310, Day: day}, largeLifts(),
		[]float64{62, 125, 182, 226, 252, 264, 266}, []float64{55, 104, 144, 170, 186, 194, 198})...)
	pw := Sheet{File: "bench/PW-46.xlsx", Name: "PW-46"}
	r.Tests = append(r.Tests, own(&pw, Column{Head: "PW-46", Sample: "46-A", BoreIn: 4.310, Day: day}, largeLifts(),
		[]float64{71, 243, 212, 268, 307, 326, 331, 329}, []float64{60, 117, 167, 205, 230, 246, 256, 261})...)
	ob := Sheet{File: "bench/OB-44 long short.xlsx", Name: "OB-44"}
	sag := []float64{28, 28, 28, 28, 28, 27, 25.5, 24}
	exhaust := []float64{66, 128, 184, 228, 258, 277, 289, 296}
	a := own(&ob, Column{Head: "OB-44", Sample: "44-A", Mark: "A", BoreIn: 4.310, Day: day, Rows: sag}, largeLifts(),
		[]float64{78, 155, 229, 291, 334, 352, 352, 345}, exhaust)
	b := own(&ob, Column{Head: "OB-44", Sample: "44-A", Mark: "B", BoreIn: 4.310, Day: day, Rows: sag}, largeLifts(),
		[]float64{77, 152, 223, 281, 321, 337, 337, 330}, exhaust)
	a[1].PortMark = ""
	r.Tests = append(r.Tests, a[0], a[1], b[0])
	vr := Sheet{File: "bench/VR-49.xlsx", Name: "VR-49"}
	r.Tests = append(r.Tests, own(&vr, Column{Head: "VR-49", Sample: "49-A", BoreIn: 4.250, Day: day}, largeLifts(),
		[]float64{73, 147, 217, 272, 309, 330, 339, 341}, []float64{62, 121, 173, 213, 240, 257, 268, 274})...)
	r.Tests = append(r.Tests, own(&vr, Column{Head: "VR-49", Sample: "49-A", BoreIn: 4.500, Day: day}, largeLifts(),
		[]float64{73, 149, 221, 280, 321, 345, 356, 359}, []float64{62, 121, 173, 214, 241, 259, 270, 276})...)
	return r
}

// opposedTests holds a shop test in inches and a supplier's metric sheet: L/s at
// 60 mbar on a bore of 96 mm, no pipe named.
func opposedTests() head.Records {
	var r head.Records
	old := Sheet{File: "bench/old eights and fours.xlsx", Name: "LKC-90 96mm 28in"}
	r.Tests = append(r.Tests, own(&old, Column{Head: "LKC-90", Sample: "90-A", BoreIn: 96 / 25.4, Day: old.Day(2026, time.March, 4)},
		[]float64{.100, .200, .300, .400, .450, .500}, []float64{53, 100, 131, 147, 151, 153}, []float64{45, 84, 106, 117, 120, 121})...)
	td := Sheet{File: "Tidewell Messblatt.xlsx", Name: "Tabelle1"}
	const cfmPerLS, mbarPerInH2O = 1 / 0.4719474432, 2.4908891
	for _, c := range []struct {
		head string
		port head.Port
		ls   []float64
	}{
		{"TD-22", head.Intake, []float64{18.8, 36.8, 51.2, 60.8, 65.7, 67.4}},
		{"TD-22", head.Exhaust, []float64{15.8, 30.2, 41.1, 48.1, 52.1, 53.4}},
		{"TD-26", head.Intake, []float64{19.6, 38.5, 54.6, 65.0, 68.2, 67.0}},
		{"TD-26", head.Exhaust, []float64{16.2, 31.1, 42.6, 50.0, 54.2, 55.6}},
	} {
		column := Column{Head: c.head, Port: c.port, Class: head.Supplier, BoreIn: 96 / 25.4, InH2O: 60 / mbarPerInH2O, By: "Tidewell", Day: source.Stated[time.Time]{}}
		for i, q := range c.ls {
			column.Lifts = append(column.Lifts, float64(2*(i+1))/25.4)
			column.CFM = append(column.CFM, q*cfmPerLS)
		}
		r.Tests = append(r.Tests, td.Test(column))
	}
	return r
}
