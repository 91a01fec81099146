package bench_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"flowshelf/analysis/bench"
	"flowshelf/analysis/quantity"
)

const (
	closedForm = 1e-8
	printed    = 2e-3
)

// failer is what testing and rapid share.
type failer interface {
	Helper()
	Errorf(format string, args ...any)
}

func near(t failer, what string, got, want, rel float64) {
	t.Helper()
	if !(math.Abs(got-want) <= rel*math.Abs(want)) {
		t.Errorf("%s = %.12g, want %.12g", what, got, want)
	}
}

func read(head, name string, mean float64) bench.Reading {
	return bench.Reading{Head: head, Bench: name, Mean: quantity.CFM(mean)}
}

// three is eight heads on the shop's bench S and two others.
func three() []bench.Reading {
	return []bench.Reading{
		read("H1", "S", 212.0), read("H1", "X", 224.7), read("H2", "S", 236.0), read("H2", "X", 237.2),
		read("H3", "S", 198.0), read("H3", "X", 204.9), read("H4", "S", 251.0), read("H4", "X", 254.0),
		read("H5", "S", 221.0), read("H5", "X", 232.1), read("H6", "X", 226.0), read("H6", "Y", 214.0),
		read("H7", "X", 240.0), read("H7", "Y", 229.0), read("H8", "S", 219.0), read("H8", "Y", 216.5),
	}
}

// TestCompare: the same two-way fit by numpy.linalg.lstsq over all heads and
// benches at once, without eliminating anything.
func TestCompare(t *testing.T) {
	fit, err := bench.Compare(three(), "S", bench.DefaultPrior())
	if err != nil {
		t.Fatal(err)
	}
	x, y := fit.Offsets[0], fit.Offsets[1]
	if x.Bench != "X" || y.Bench != "Y" || fit.DOF != 6 || x.Heads != 7 || y.Heads != 3 {
		t.Fatalf("%+v", fit)
	}
	near(t, "X", x.Log, 0.03257027833770998, closedForm)
	near(t, "Y", y.Log, -0.01593884324557393, closedForm)
	near(t, "X, %", x.Percent(), 3.3106495599940944, closedForm)
	near(t, "Y, %", y.Percent(), -1.5812492071449524, closedForm)
	near(t, "se of X", x.SE, 0.007992668993044781, closedForm)
	near(t, "se of Y", y.SE, 0.012209003555118062, closedForm)
	near(t, "cov", fit.Cov[0][1], 4.258850508825299e-05, closedForm)
	near(t, "residual sd", fit.SD, 0.013453666660991539, closedForm)
	for i, want := range []float64{
		214.73207489957952, 232.77739180593923, 198.16686014443155, 248.4169200558291,
		222.82358689588997, 218.09697200642526, 232.49407617882116, 219.4886582313198,
	} {
		near(t, fit.Heads[i].Name, fit.Heads[i].Mean.CFM(), want, closedForm)
	}
	if x.Indicative() || y.Indicative() {
		t.Error("three heads are only indicative")
	}
	if !(math.Abs(x.Shrunk) < math.Abs(x.Log) && x.SD > 0) {
		t.Errorf("not shrunk: %+v", x)
	}
}

// TestPair: paired t on log ratios, Student's t from tables.
func TestPair(t *testing.T) {
	shop := []quantity.Flow{212, 236, 198, 251, 221}
	other := []quantity.Flow{224.7, 237.2, 204.9, 254, 232.1}
	p, err := bench.Pair(shop, other)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mean", p.MeanLog, 0.0316787461633883, closedForm)
	near(t, "sd", p.SD, 0.02296210424871929, closedForm)
	near(t, "se", p.SE, 0.010268965201314612, closedForm)
	near(t, "%", p.Percent(), 3.2185858369447873, closedForm)
	near(t, "t", p.T, 2.7764451051977987, closedForm)
	low, high, ok := p.Interval()
	if !ok {
		t.Fatal("no interval")
	}
	near(t, "low", low, 0.31725499125057066, 1e-7)
	near(t, "high", high, 6.20382767758112, closedForm)
	near(t, "shrunk, %", 100*math.Expm1(p.Shrunk), 2.91, printed)
	near(t, "sd of shrunk", p.SDShrunk, 0.0092, 5*printed)

	one, err := bench.Pair([]quantity.Flow{1000}, []quantity.Flow{1035.4})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "one pair, %", 100*math.Expm1(one.Shrunk), 2.44, printed)
	near(t, "one pair, sd", one.SDShrunk, 0.0166, 5*printed)
	if _, _, ok := one.Interval(); ok {
		t.Error("one pair has an interval")
	}
	for _, bad := range [][2][]quantity.Flow{{nil, nil}, {{1}, {1, 2}}, {{0}, {1}}} {
		if _, err := bench.Pair(bad[0], bad[1]); err == nil {
			t.Errorf("%v: no error", bad)
		}
	}
}

// TestCompareAgreesWithPair: two benches over common heads are paired data.
func TestCompareAgreesWithPair(t *testing.T) {
	shop := []quantity.Flow{212, 236, 198, 251, 221}
	other := []quantity.Flow{224.7, 237.2, 204.9, 254, 232.1}
	var readings []bench.Reading
	for i := range shop {
		name := string(rune('A' + i))
		readings = append(readings, read(name, "S", shop[i].CFM()), read(name, "X", other[i].CFM()))
	}
	fit, err := bench.Compare(readings, "S", bench.DefaultPrior())
	if err != nil {
		t.Fatal(err)
	}
	p, err := bench.Pair(shop, other)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "offset", fit.Offsets[0].Log, p.MeanLog, closedForm)
	near(t, "se", fit.Offsets[0].SE, p.SE, closedForm)
	near(t, "shrunk", fit.Offsets[0].Shrunk, p.Shrunk, closedForm)
	near(t, "its sd", fit.Offsets[0].SD, p.SDShrunk, closedForm)
}

func TestLinked(t *testing.T) {
	chain := []bench.Reading{read("H1", "S", 200), read("H1", "X", 205), read("H2", "X", 220), read("H2", "Y", 215)}
	if !bench.Linked(chain, "S", "Y") {
		t.Error("a chain does not link")
	}
	apart := []bench.Reading{read("H1", "S", 200), read("H1", "X", 205), read("H9", "Z", 220), read("H10", "Z", 215)}
	if bench.Linked(apart, "S", "Z") {
		t.Error("Z cannot be tied to S")
	}
	fit, err := bench.Compare(apart, "S", bench.DefaultPrior())
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(fit.Unlinked, []string{"Z"}) || len(fit.Offsets) != 1 || !fit.Offsets[0].Indicative() {
		t.Errorf("%+v", fit)
	}
	if !math.IsInf(fit.Offsets[0].SE, 1) || !(fit.Offsets[0].SD < math.Inf(1)) {
		t.Errorf("one head has no residual, but the prior: %+v", fit.Offsets[0])
	}
}

func TestCompareRefused(t *testing.T) {
	for name, readings := range map[string][]bench.Reading{
		"nothing": nil, "not the shop": {read("H1", "X", 200)}, "no flow": {read("H1", "S", 0)},
		"not a number": {read("H1", "S", math.NaN())},
	} {
		if _, err := bench.Compare(readings, "S", bench.DefaultPrior()); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
	alone, err := bench.Compare([]bench.Reading{read("H1", "S", 200)}, "S", bench.DefaultPrior())
	if err != nil || len(alone.Offsets) != 0 || alone.Heads[0].Mean.CFM() < 199.9 {
		t.Errorf("the shop alone: %+v, %v", alone, err)
	}
}

func TestDoubtfulResidual(t *testing.T) {
	var readings []bench.Reading
	for i := range 20 {
		wobble := 1 + 0.002*float64(i%3-1)
		name := string(rune('A' + i))
		readings = append(readings, read(name, "S", 200), read(name, "X", 206*wobble))
	}
	readings[5].Mean *= 1.12 // C on X
	fit, err := bench.Compare(readings, "S", bench.DefaultPrior())
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range fit.Residual {
		if r.Doubtful != (r.Head == "C") {
			t.Errorf("%s on %s: residual %.4f, doubtful %v", r.Head, r.Bench, r.Log, r.Doubtful)
		}
	}
}

// TestOrderOfReadings: the order in which readings come changes nothing.
func TestOrderOfReadings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		shuffled := rapid.Permutation(three()).Draw(t, "readings")
		a, err1 := bench.Compare(three(), "S", bench.DefaultPrior())
		b, err2 := bench.Compare(shuffled, "S", bench.DefaultPrior())
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		for i := range a.Offsets {
			if a.Offsets[i] != b.Offsets[i] {
				t.Fatalf("%+v became %+v", a.Offsets[i], b.Offsets[i])
			}
		}
	})
}

// TestUnits: flows all taller by one factor leave the offsets.
func TestUnits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		factor := quantity.Flow(rapid.Float64Range(0.1, 10).Draw(t, "factor"))
		scaled := three()
		for i := range scaled {
			scaled[i].Mean *= factor
		}
		a, err1 := bench.Compare(three(), "S", bench.DefaultPrior())
		b, err2 := bench.Compare(scaled, "S", bench.DefaultPrior())
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		near(t, "X", b.Offsets[0].Log, a.Offsets[0].Log, 1e-9)
		near(t, "se", b.Offsets[0].SE, a.Offsets[0].SE, 1e-9)
	})
}

// TestCoverage draws benches and heads with known offsets: intervals of t times
// the standard error must hold the truth about 95 times in a hundred, and the
// shrunk offsets with their deviations nearly so when benches differ as the
// prior says.
func TestCoverage(t *testing.T) {
	const (
		runs   = 2000
		t95    = 2.4469 // Student's t at 97.5 %, 6 degrees of freedom, from tables
		lowest = 0.935  // 95 % less three standard errors of 2000 runs
		most   = 0.965
		// Shrunk offsets are used with 1.96 of a deviation that is itself
		// estimated, so they hold a little less.
		lowestShrunk = 0.92
	)
	random := rand.New(rand.NewPCG(3, 4))
	held, heldShrunk := 0, 0
	for range runs {
		offsets := map[string]float64{"S": 0, "X": 0.03 * random.NormFloat64(), "Y": 0.03 * random.NormFloat64()}
		readings := three()
		heads := map[string]float64{}
		for i, r := range readings {
			if _, ok := heads[r.Head]; !ok {
				heads[r.Head] = math.Log(220) + 0.1*random.NormFloat64()
			}
			y := heads[r.Head] + offsets[r.Bench] + 0.02/math.Sqrt2*random.NormFloat64()
			readings[i].Mean = quantity.CFM(math.Exp(y))
		}
		fit, err := bench.Compare(readings, "S", bench.DefaultPrior())
		if err != nil {
			t.Fatal(err)
		}
		x := fit.Offsets[0]
		if math.Abs(x.Log-offsets["X"]) <= t95*x.SE {
			held++
		}
		if math.Abs(x.Shrunk-offsets["X"]) <= 1.96*x.SD {
			heldShrunk++
		}
	}
	share, shrunk := float64(held)/runs, float64(heldShrunk)/runs
	t.Logf("95 %% intervals hold the truth in %.3f of the runs, shrunk ones in %.3f", share, shrunk)
	if share < lowest || share > most {
		t.Errorf("coverage %.3f, want %.3f to %.3f", share, lowest, most)
	}
	if shrunk < lowestShrunk {
		t.Errorf("coverage of shrunk offsets %.3f, want at least %.3f", shrunk, lowestShrunk)
	}
}

// TestOnShop: the five pairs of the worked record; numpy for the pooled
// variance, scipy.stats.norm for 1.96.
func TestOnShop(t *testing.T) {
	p, err := bench.Pair([]quantity.Flow{212, 236, 198, 251, 221}, []quantity.Flow{224.7, 237.2, 204.9, 254, 232.1})
	if err != nil {
		t.Fatal(err)
	}
	flow, low, high := p.OnShop(240)
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"flow", flow.CFM(), 233.20529009200663}, {"low", low.CFM(), 222.75006901358518}, {"high", high.CFM(), 244.1512479333065},
	} {
		if math.Abs(c.got/c.want-1) > 1e-9 {
			t.Errorf("%s %v, want %v", c.what, c.got, c.want)
		}
	}
}
