package main

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"flowshelf/export/book/booktest"
)

// mostPages are the most pages that a sheet of the demo may take on either
// paper; a sheet that is not named may take one. A row of each kind of workbook.
var mostPages = map[string]map[string]int{
	"Heads ranked - Small Eight.xlsx": {"Ranking": 2, "Why": 2, "Side by side": 2, "Flow": 2, "Curves": 4, "Shape": 2, "Lift by lift": 2, "Value": 2, "Advertised v tested": 3,
		"Not ranked": 1, "Sources": 12, "Method": 4, "Data": 5},
	"Pricing - Small Eight.xlsx":                                 {"Pricing": 2, "Turning points": 1, "Strip": 1, "Started from": 2, "Method": 2, "Working": 4},
	"Monthly review 2026-03.xlsx":                                {"Decisions": 1, "Stock health": 1, "Value and movement": 2, "Bench health": 2, "Sources": 1},
	"Counter sheet - Small Eight.xlsx":                           {"Counter": 1},
	"Enquiries answered.xlsx":                                    {},
	"Questions.xlsx":                                             {"Answered": 1},
	"Folder status.xlsx":                                         {"Files": 2, "Problems": 4},
	"History/2026-03.xlsx":                                       {"Places": 2, "Settings": 4},
	"For suppliers/Pellworth.xlsx":                               {"Advertised and tested": 2},
	"For suppliers/Tidewell.xlsx":                                {},
	"Head cards/VR-84.xlsx":                                      {"Card": 2},
	"For customers/Heads for 1 331 street and strip, phone.xlsx": {},
}

// TestPaper prints a workbook of each kind on letter and on A4: each page has the
// paper's size and is one of those its sheet may take, and a table that goes on
// has its titles again.
func TestPaper(t *testing.T) {
	for paper, size := range map[string]string{"letter": "612 x 792", "A4": "595.304 x 841.89"} {
		t.Run(paper, func(t *testing.T) {
			folder := demoFolder(t)
			setPaper(t, filepath.Join(folder, "Shop setup.xlsx"), paper)
			runOn(t, folder, demoDay)
			reviewOn(t, folder, demoDay)
			var files []string
			for name := range mostPages {
				files = append(files, filepath.Join(folder, "Ranked", filepath.FromSlash(name)))
			}
			slices.Sort(files)
			pages := booktest.PrintAll(t, files)
			for name, most := range mostPages {
				file := filepath.Join(folder, "Ranked", filepath.FromSlash(name))
				checkPages(t, name, pages[file], size, most)
				checkTitles(t, file, pages[file])
			}
		})
	}
}

func checkPages(t *testing.T, name string, pages []booktest.Page, size string, most map[string]int) {
	t.Helper()
	count := make(map[string]int)
	for i, p := range pages {
		count[p.Sheet]++
		if !sameSize(p.Size, size) {
			t.Errorf("%s, page %d is %s points, want %s", name, i+1, p.Size, size)
		}
		if strings.Contains(p.Text, "###") {
			t.Errorf("%s, page %d: a column is too narrow:\n%s", name, i+1, p.Text)
		}
	}
	if len(pages) == 0 || count[""] > 0 {
		t.Errorf("%s: %d pages, %d without the name of a sheet", name, len(pages), count[""])
	}
	for sheet, n := range count {
		if n > max(most[sheet], 1) {
			t.Errorf("%s: %q takes %d pages, want at most %d", name, sheet, n, max(most[sheet], 1))
		}
	}
}

// sameSize compares sizes in points, either way up, to a point.
func sameSize(got, want string) bool {
	whole := func(s string) []string {
		out := regexp.MustCompile(`\.\d+`).ReplaceAllString(s, "")
		sides := strings.Split(out, " x ")
		slices.Sort(sides)
		return sides
	}
	return slices.Equal(whole(got), whole(want))
}

// checkTitles looks on every page of a sheet whose titles repeat for the first of
// them.
func checkTitles(t *testing.T, file string, pages []booktest.Page) {
	t.Helper()
	f, err := excelize.OpenFile(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for _, n := range f.GetDefinedName() {
		if n.Name != "_xlnm.Print_Titles" {
			continue
		}
		row := n.RefersTo[strings.LastIndex(n.RefersTo, "$")+1:]
		title, err := f.GetCellValue(n.Scope, "A"+row)
		if err != nil {
			t.Fatal(err)
		}
		first, _, _ := strings.Cut(title, " ")
		for i, p := range pages {
			if p.Sheet == n.Scope && first != "" && !strings.Contains(p.Text, first) {
				t.Errorf("%s, page %d of %q lacks its titles (%q)", filepath.Base(file), i+1, n.Scope, title)
			}
		}
	}
}

// setPaper types the paper into the setup.
func setPaper(t *testing.T, path, paper string) {
	t.Helper()
	f, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := f.GetRows("Shop")
	if err != nil {
		t.Fatal(err)
	}
	row := slices.IndexFunc(rows, func(r []string) bool { return len(r) > 0 && r[0] == "Paper" })
	if row < 0 {
		t.Fatal("the setup has no row for the paper")
	}
	if err := f.SetCellValue("Shop", fmt.Sprintf("B%d", row+1), paper); err != nil {
		t.Fatal(err)
	}
	if err := f.Save(); err != nil {
		t.Fatal(err)
	}
}

// TestPaperChanges holds that the same cells are laid out anew when the shop
// changes its paper, that every sheet of every workbook of ours is on it and no
// wider than one page where it is fitted, and that the next pass leaves them alone.
func TestPaperChanges(t *testing.T) {
	folder := demoFolder(t)
	runOn(t, folder, demoDay)
	setPaper(t, filepath.Join(folder, "Shop setup.xlsx"), "A4")
	if said := runOn(t, folder, demoDay); !strings.Contains(said, "written        Heads ranked - Small Eight.xlsx") {
		t.Errorf("another paper, and the ranking was not laid out again:\n%s", said)
	}
	if said := runOn(t, folder, demoDay); strings.Contains(said, "written  ") {
		t.Errorf("the same paper, and something was written:\n%s", said)
	}
	err := fs.WalkDir(os.DirFS(filepath.Join(folder, "Ranked")), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || strings.HasPrefix(name, "Marked copies/") {
			return err
		}
		f, err := excelize.OpenFile(filepath.Join(folder, "Ranked", name))
		if err != nil {
			return err
		}
		defer f.Close()
		for _, sheet := range f.GetSheetList() {
			layout, err := f.GetPageLayout(sheet)
			if err != nil {
				return err
			}
			const a4 = 9 // ISO/IEC 29500-1, 18.3.1.63
			if layout.Size == nil || *layout.Size != a4 || layout.FitToWidth != nil && *layout.FitToWidth != 1 {
				t.Errorf("%s, sheet %q: %+v", name, sheet, layout)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
