package cam_test

import (
	"errors"
	"math"
	"testing"

	"flowshelf/analysis/cam"
	"flowshelf/analysis/curve"
	"flowshelf/analysis/quantity"
)

const (
	closedForm = 1e-9 // relative
	integral   = 1e-5 // relative; printed to six figures
)

func near(t *testing.T, what string, got, want, rel float64) {
	t.Helper()
	if !(math.Abs(got-want) <= rel*math.Abs(want)) {
		t.Errorf("%s = %.12g, want %.12g", what, got, want)
	}
}

func port(t *testing.T, flows ...float64) ([]curve.Point, curve.Curve) {
	t.Helper()
	var p []curve.Point
	for i, q := range flows {
		p = append(p, curve.Point{Lift: quantity.Inches(0.1 * float64(i+1)), Flow: quantity.CFM(q)})
	}
	c, err := curve.New(p)
	if err != nil {
		t.Fatal(err)
	}
	return p, c
}

// TestMean holds the average to adaptive quadrature (scipy quad over scipy's
// PchipInterpolator) for a generic two-valve intake port.
func TestMean(t *testing.T) {
	points, c := port(t, 65, 130, 190, 232, 252, 256, 257)
	verdict := curve.Stall(points, curve.DefaultNoise())
	for _, tt := range []struct {
		name string
		cam  cam.Cam
		over cam.Over
		want float64
	}{
		{"harmonic .500 seat to seat", cam.Cam{Lobe: .5 / 1.5, Rocker: 1.5}, cam.SeatToSeat, 143.66708712316458},
		{"harmonic .600 seat to seat", cam.Cam{Lobe: .4, Rocker: 1.5}, cam.SeatToSeat, 156.90674800703673},
		{"harmonic .650 seat to seat", cam.Cam{Lobe: .65 / 1.5, Rocker: 1.5}, cam.SeatToSeat, 161.91137456306635},
		{"polynomial .650 seat to seat", cam.Cam{Lobe: .65 / 1.5, Rocker: 1.5, Profile: cam.Polynomial}, cam.SeatToSeat, 171.28685659790446},
		{"polynomial .600 seat to seat", cam.Cam{Lobe: .4, Rocker: 1.5, Profile: cam.Polynomial}, cam.SeatToSeat, 166.230},
		{"harmonic .600 between .050", cam.Cam{Lobe: .4, Rocker: 1.5}, cam.Between050, 198.848},
		{"polynomial .600 between .050", cam.Cam{Lobe: .4, Rocker: 1.5, Profile: cam.Polynomial}, cam.Between050, 202.568},
	} {
		got, err := tt.cam.Mean(c, verdict, tt.over)
		if err != nil {
			t.Fatalf("%s: %v", tt.name, err)
		}
		near(t, tt.name, got.CFM(), tt.want, integral)
	}
}

// TestMeanChebyshev: the harmonic seat-to-seat mean is the Gauss-Chebyshev mean
// (1/n) sum q(Lm/2 (1 + cos((2k-1) pi/2n))).
func TestMeanChebyshev(t *testing.T) {
	points, c := port(t, 65, 130, 190, 232, 252, 256, 257)
	const n, peak = 20000, 0.62
	sum := 0.0
	for k := 1; k <= n; k++ {
		x := peak / 2 * (1 + math.Cos(float64(2*k-1)*math.Pi/(2*n)))
		q, ok := c.At(quantity.Inches(x))
		if !ok {
			t.Fatal("off the curve")
		}
		sum += q.CFM()
	}
	got, err := cam.Cam{Lobe: peak / 1.6, Rocker: 1.6}.Mean(c, curve.Stall(points, curve.DefaultNoise()), cam.SeatToSeat)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mean", got.CFM(), sum/n, 1e-8)
}

func TestMeanBeyondTheReadings(t *testing.T) {
	big := cam.Cam{Lobe: .5, Rocker: 1.6} // .800 at the valve
	points, climbing := port(t, 66, 131, 190, 240, 280, 310, 332)
	_, err := big.Mean(climbing, curve.Stall(points, curve.DefaultNoise()), cam.SeatToSeat)
	var beyond cam.BeyondError
	if !errors.As(err, &beyond) || beyond.Last.Near(quantity.Inches(.7), 1e-9) == false {
		t.Errorf("still climbing: %v, want a BeyondError at .700", err)
	}
	points, flat := port(t, 66, 131, 190, 240, 262, 263, 263.5)
	got, err := big.Mean(flat, curve.Stall(points, curve.DefaultNoise()), cam.SeatToSeat)
	if err != nil {
		t.Fatal(err)
	}
	// Holding the last flow is the same as one more equal reading.
	more, longer := port(t, 66, 131, 190, 240, 262, 263, 263.5, 263.5)
	want, err := big.Mean(longer, curve.Stall(more, curve.DefaultNoise()), cam.SeatToSeat)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "held", got.CFM(), want.CFM(), 1e-4) // the end slope differs a little
	if _, err := (cam.Cam{}).Mean(flat, curve.Verdict{}, cam.SeatToSeat); err == nil {
		t.Error("no lobe: no error")
	}
	if _, err := big.Mean(curve.Curve{}, curve.Verdict{}, cam.SeatToSeat); err == nil {
		t.Error("no readings: no error")
	}
}

func TestSeatDuration(t *testing.T) {
	c := cam.Cam{Lobe: .4, Rocker: 1.5}
	near(t, "harmonic", c.SeatDuration(240), 311.710, 1e-5)
	near(t, "harmonic by its formula", c.SeatDuration(240), math.Pi*240/math.Acos(2*.05/.4-1), closedForm)
	c.Profile = cam.Polynomial
	near(t, "polynomial", c.SeatDuration(240), 298.5003954018392, closedForm)
	if !math.IsNaN((cam.Cam{Lobe: .05, Rocker: 1.5}).SeatDuration(240)) {
		t.Error("a lobe of the check lift has no duration at it")
	}
}

// TestDwell: the arcsine law, and its halves by hand.
func TestDwell(t *testing.T) {
	for x, want := range map[float64]float64{0: 1, .25: 2. / 3, .5: .5, .75: 1. / 3, .9: 0.20483276469913353} {
		near(t, "time above", cam.Harmonic.TimeAbove(x), want, 1e-12)
	}
	if got := cam.Harmonic.TimeAbove(1); got != 0 {
		t.Errorf("time above peak = %g", got)
	}
	near(t, "polynomial", cam.Polynomial.TimeAbove(.25), math.Sqrt(.5), 1e-12)
}

func TestWeights(t *testing.T) {
	lifts := []quantity.Length{0, .1, .2, .3, .4, .5, .6}
	want := []float64{0.18642949867733738, 0.14690383465599588, 0.11336628762855294, 0.10660075807622754,
		0.11336628762855289, 0.14690383465599605, 0.18642949867733732}
	got := cam.Harmonic.Weights(lifts, .6)
	sum := 0.0
	for i := range want {
		near(t, "weight", got[i], want[i], closedForm)
		sum += got[i]
	}
	near(t, "sum", sum, 1, 1e-12)
}
