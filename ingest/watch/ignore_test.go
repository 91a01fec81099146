package watch_test

import (
	"testing"

	"flowshelf/ingest/watch"
)

func TestIgnored(t *testing.T) {
	tests := map[string]bool{
		"bench/LKC-12 cyl 1 and 3.xlsx": false,
		"Ranked list from Larkmoor.csv": false, // only the folder itself is ours
		"bench/Ranked/old.xlsx":         false, // and only at the top
		"lunch.tmp.xlsx":                false,
		"prices ~ new.xlsx":             false,
		"Ranked":                        true,
		"ranked/Questions.xlsx":         true, // Windows shares do not tell cases apart
		"~$Small Eight shootout.xlsx":   true,
		"bench/~$PW-46.xlsx":            true,
		".~lock.PW-46.xlsx#":            true,
		"bench/lu1234abc.tmp":           true,
		".prices.xlsx.AbCd12":           true,
		".hidden/prices.xlsx":           true,
		"prices.xlsx.partial":           true,
		"ABCD1234.TMP":                  true,
		"prices.xlsx~":                  true,
		"desktop.ini":                   true,
	}
	for name, want := range tests {
		if got := watch.Ignored(name, "Ranked"); got != want {
			t.Errorf("Ignored(%q) = %v, want %v", name, got, want)
		}
	}
}
