package compare_test

import (
	"strings"
	"testing"
)

// TestLowLift holds the share of the curtain's ideal flow to the closed form
// q / (pi d L v), v = sqrt(2 dp / rho) with dp of 28 inH2O (6974.5 Pa) and rho of
// 1.225 kg/m3: v = 106.7 m/s = 350.1 ft/s, pi x 2.020 x .100 in2 pass 92.6 cfm at
// most, and 68 are 0.7346 of it.
func TestLowLift(t *testing.T) {
	c := comparisons(t)["Small Eight"]
	e := find(c, "LKC-12")
	if len(e.LowLift.At) != 3 {
		t.Fatalf("%+v", e.LowLift)
	}
	near(t, "LKC-12 at .100", e.LowLift.At[0].Value, 0.7346, 0.0005)
	for label, says := range map[string]string{
		"VR-84 as delivered": "behind at low lift and at .500",
		"LKC-07":             "can't say: no other head of its valve size was tested here",
		"OB-4":               "ahead at low lift",
	} {
		if got := find(c, label).LowLift.Words; !strings.HasPrefix(got, says) {
			t.Errorf("%s: %q, want %q", label, got, says)
		}
	}
	for _, p := range find(c, "VR-84 + valve job").LowLift.Peers {
		if strings.HasPrefix(p, "VR-84") {
			t.Errorf("VR-84 is held against itself: %v", p)
		}
	}
}

// TestOurWorkAnHour holds what the work leaves an hour to the rework menu of the
// shelf: its price less its internal cost, over its hours.
func TestOurWorkAnHour(t *testing.T) {
	for _, r := range comparisons(t)["Small Eight"].Rework {
		switch {
		case !r.Hours.Known || !r.Margin.Known:
			if r.PerHour.Known {
				t.Errorf("%s: an hour of unknown work earns %v", r.Label, r.PerHour)
			}
		default:
			near(t, r.Label, r.PerHour.Value, r.Margin.Value/r.Hours.Value, 1e-9)
		}
	}
}
