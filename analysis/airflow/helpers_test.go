package airflow_test

import (
	"math"
	"testing"

	"flowshelf/analysis/quantity"
)

// Relative tolerances: closed forms to rounding, figures quoted to a library's
// digits, tables as printed.
const (
	exact      = 1e-12
	closedForm = 1e-9
	iterated   = 1e-6
)

// failer is what testing and rapid share.
type failer interface {
	Helper()
	Errorf(format string, args ...any)
}

// near reports a relative difference beyond tol.
func near(t failer, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol*math.Abs(want)) {
		t.Errorf("%s = %.15g, want %.15g within %g", what, got, want, tol)
	}
}

// nearAbs reports an absolute difference beyond tol.
func nearAbs(t failer, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.12g, want %.12g within %g absolute", what, got, want, tol)
	}
}

func inH2O(x float64) quantity.Pressure { return quantity.InchesOfWater(x) }
func in(x float64) quantity.Length      { return quantity.Inches(x) }
func mm(x float64) quantity.Length      { return quantity.Millimetres(x) }
func cfm(x float64) quantity.Flow       { return quantity.CFM(x) }
func pa(x float64) quantity.Pressure    { return quantity.Pascals(x) }

func wantErr(t *testing.T, what string, err error) {
	t.Helper()
	if err == nil {
		t.Errorf("%s: no error", what)
	}
}
