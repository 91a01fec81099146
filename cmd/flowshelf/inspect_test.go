package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestInspectInALargeFolder holds that a file of a large folder is shown without the
// others, that the output says so, and that --folder reads them: there the valve of
// another book refuses a reading that it cannot pass.
func TestInspectInALargeFolder(t *testing.T) {
	folder := t.TempDir()
	var out, errs bytes.Buffer
	setup, err := os.ReadFile(filepath.Join("..", "..", "testdata", "demo", "Shop setup.xlsx"))
	if err != nil {
		t.Fatal(err)
	}
	write := func(name, content string) {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(content), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	write("Shop setup.xlsx", string(setup))
	write("a.csv", "Head;LKC-12\nour bench, 4.030 bore, 28 inH2O, cfm, radius plate;\nLift in;Int\n0.100;68\n0.200;305\n0.300;310\n0.400;312\n")
	write("dimensions.csv", "Dimensions\nHead;Intake valve in;Exhaust valve in\nLKC-12;1.900;1.500\n")
	show := func(args ...string) string {
		out.Reset()
		execute(append([]string{"inspect", filepath.Join(folder, "a.csv")}, args...), &out, &errs)
		return out.String()
	}
	const refused, apart = "valve can pass at most", "were not read"
	if got := show(); !strings.Contains(got, refused) || strings.Contains(got, apart) {
		t.Fatalf("a small folder is read whole:\n%s", got)
	}
	for n := range manyFiles {
		write(fmt.Sprintf("note %d.csv", n), fmt.Sprintf("Name,Desk\nA,%d\n", n))
	}
	if got := show(); strings.Contains(got, refused) || !strings.Contains(got, fmt.Sprintf("the %d other files of its folder %s", manyFiles+2, apart)) {
		t.Errorf("the other files of a large folder count, or nothing is said of them:\n%s", got)
	}
	if got := show("--output", "json"); !strings.Contains(got, fmt.Sprintf(`"not_compared_with": %d`, manyFiles+2)) {
		t.Errorf("the JSON does not say what was not compared:\n%s", got)
	}
	if got := show("--folder"); !strings.Contains(got, refused) || strings.Contains(got, apart) {
		t.Errorf("--folder does not read the others:\n%s", got)
	}
}
