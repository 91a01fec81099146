package decode_test

import (
	"bytes"
	"context"
	"encoding/csv"
	"errors"
	"os/exec"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"golang.org/x/text/encoding/unicode"
	"pgregory.net/rapid"

	"flowshelf/ingest/decode"
)

// table lists the texts of the one sheet of a text file, row by row.
func table(t *testing.T, content []byte) [][]string {
	t.Helper()
	sheet := &mustDecode(t, content).Sheets[0]
	rows := make([][]string, sheet.Rows())
	for i := range rows {
		for _, c := range sheet.Row(i + 1) {
			for len(rows[i]) < c.Col {
				rows[i] = append(rows[i], "")
			}
			rows[i][c.Col-1] = c.Text
		}
	}
	return rows
}

func TestTextTables(t *testing.T) {
	for name, test := range map[string]struct {
		text string
		want [][]string
	}{
		"comma":     {"lift,cfm\n.100,60\n.200,116\n", [][]string{{"lift", "cfm"}, {".100", "60"}, {".200", "116"}}},
		"semicolon": {"lift;cfm\r\n0,100;60,5\r\n0,200;116\r\n", [][]string{{"lift", "cfm"}, {"0,100", "60,5"}, {"0,200", "116"}}},
		// Each line has three commas too.
		"semicolons and decimal commas": {"1,0;2,0;3,0\n1,1;2,1;3,1\n", [][]string{{"1,0", "2,0", "3,0"}, {"1,1", "2,1", "3,1"}}},
		"the same with words beside":    {"mm;Ein;Aus;;96 mm\n2 mm;19,3;17,1;;70 mbar\n4 mm;39,8;33,8;;l/s\n6 mm;56,2;45,3\n", [][]string{{"mm", "Ein", "Aus", "", "96 mm"}, {"2 mm", "19,3", "17,1", "", "70 mbar"}, {"4 mm", "39,8", "33,8", "", "l/s"}, {"6 mm", "56,2", "45,3"}}},
		"commas and remarks":            {"lift,int,exh,note\n.1,66,63,ok; good\n.2,114,94,ok; good\n", [][]string{{"lift", "int", "exh", "note"}, {".1", "66", "63", "ok; good"}, {".2", "114", "94", "ok; good"}}},
		"tab":                           {"lift\tcfm, wet\n.100\t60\n", [][]string{{"lift", "cfm, wet"}, {".100", "60"}}},
		"bar":                           {"lift|cfm\n.100|60\n", [][]string{{"lift", "cfm"}, {".100", "60"}}},
		"title first":                   {"Flow, LKC-12\n\nlift;cfm\n0.1;60\n0.2;116\n", [][]string{{"Flow, LKC-12"}, nil, {"lift", "cfm"}, {"0.1", "60"}, {"0.2", "116"}}},
		"semicolons in a quoted title":  {"PW-33; serial C1187,\n\"JT; clay, 28 inH2O\",\nlift,cfm\n.1,60\n.2,116\n", [][]string{{"PW-33; serial C1187"}, {"JT; clay, 28 inH2O"}, {"lift", "cfm"}, {".1", "60"}, {".2", "116"}}},
		"bars in a quoted title":        {"\"MB-94 | 4.030\"\" tube | 28\"\"\",\nlift,cfm\n.1,60\n.2,\"116\"\n", [][]string{{"MB-94 | 4.030\" tube | 28\""}, {"lift", "cfm"}, {".1", "60"}, {".2", "116"}}},
		"bars in every title":           {"MB-94 | cfm,\nJT | 28 in,\nPW | clay,\n\"a, b\",\nlift,cfm\n.1,60\n", [][]string{{"MB-94 | cfm"}, {"JT | 28 in"}, {"PW | clay"}, {"a, b"}, {"lift", "cfm"}, {".1", "60"}}},
		"sentences with decimal commas": {"Katalog, cfm bei 28 inH2O\nTA-70: Einlass 281,5 cfm @ 12,7 mm\nSG 30: Einlass 264,5 cfm bei 12,7 mm\n", [][]string{{"Katalog, cfm bei 28 inH2O"}, {"TA-70: Einlass 281,5 cfm @ 12,7 mm"}, {"SG 30: Einlass 264,5 cfm bei 12,7 mm"}}},
		"the same behind semicolons":    {"Katalog, cfm\nTA-70;Einlass 281,5 cfm\nSG 30;Einlass 264,5 cfm, trocken\n", [][]string{{"Katalog, cfm"}, {"TA-70", "Einlass 281,5 cfm"}, {"SG 30", "Einlass 264,5 cfm, trocken"}}},
		"a sentence over commas":        {"bore 96,5 mm\nlift,cfm\n.1,60\n.2,116\n", [][]string{{"bore 96", "5 mm"}, {"lift", "cfm"}, {".1", "60"}, {".2", "116"}}},
		"named delimiter":               {"sep=|\nlift|cfm, wet\n.1|60\n", [][]string{{"lift", "cfm, wet"}, {".1", "60"}}},
		"quotes":                        {"head,note\nLKC-12,\"plug, loose\"\nPW-31,\"says \"\"278\"\"\nin the ad\"\n", [][]string{{"head", "note"}, {"LKC-12", "plug, loose"}, {"PW-31", "says \"278\"\nin the ad"}}},
		"inch marks":                    {"bore,valve\n4.030\",2.02\"\n4.310\",2.19\"\n", [][]string{{"bore", "valve"}, {"4.030\"", "2.02\""}, {"4.310\"", "2.19\""}}},
		"blank behind a quote":          {"a,b\n\"x\" ,\"y\"\n", [][]string{{"a", "b"}, {"x", "y"}}},
		"one column":                    {"LKC-12\nPW-31\n", [][]string{{"LKC-12"}, {"PW-31"}}},
		"old line ends":                 {"a,b\rc,d\r", [][]string{{"a", "b"}, {"c", "d"}}},
		"no line end":                   {"a,b\nc,d", [][]string{{"a", "b"}, {"c", "d"}}},
		"empty fields":                  {"a,,b\n,,c\n", [][]string{{"a", "", "b"}, {"", "", "c"}}},
		"end mark":                      {"a,b\nc,d\n\x1a", [][]string{{"a", "b"}, {"c", "d"}}},
		"byte order mark":               {"\ufeffa,b\nc,d\n", [][]string{{"a", "b"}, {"c", "d"}}},
		"UTF-8":                         {"Ø,b\n96 mm²,d\n", [][]string{{"Ø", "b"}, {"96 mm²", "d"}}},
		"Windows-1252":                  {"\xd8,\x80\nm\xb3/h,\x93x\x94\n", [][]string{{"Ø", "€"}, {"m³/h", "“x”"}}},
	} {
		t.Run(name, func(t *testing.T) {
			if diff := cmp.Diff(test.want, table(t, []byte(test.text))); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

func TestTextInUTF16(t *testing.T) {
	const text = "lift;Ø mm\n0,1;96\n"
	for name, encoding := range map[string]interface {
		Bytes([]byte) ([]byte, error)
	}{
		"little endian, marked": unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewEncoder(),
		"big endian, marked":    unicode.UTF16(unicode.BigEndian, unicode.UseBOM).NewEncoder(),
		"little endian":         unicode.UTF16(unicode.LittleEndian, unicode.IgnoreBOM).NewEncoder(),
		"big endian":            unicode.UTF16(unicode.BigEndian, unicode.IgnoreBOM).NewEncoder(),
	} {
		t.Run(name, func(t *testing.T) {
			content, err := encoding.Bytes([]byte(text))
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff([][]string{{"lift", "Ø mm"}, {"0,1", "96"}}, table(t, content)); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
			if r := refusal(t, content[:len(content)-1], decode.Defaults()); r.Kind != decode.Damaged {
				t.Errorf("half a character: refused as %s", r.Kind)
			}
		})
	}
}

// TestPlainNumbers: what can be read in two ways stays text.
func TestPlainNumbers(t *testing.T) {
	for text, isNumber := range map[string]bool{
		"123": true, "12.5": true, ".550": true, "0": true, "-0.5": true, "0.300": true, " 7 ": true, "1234567.891": true,
		"007": false, "1e5": false, "1E5": false, "+5": false, "5.": false, "1,234": false, "12,5": false, "1'234": false,
		"1.234.567": false, "$5": false, "5%": false, "-": false, ".": false, "0x10": false, "12 in": false, "1/2": false,
		"--5": false, "1234567890123456789": false, "٣": false,
	} {
		content := "head\tvalue\nLKC-12\t" + text + "\nPW-31\t1.5\n"
		cell := mustDecode(t, []byte(content)).Sheets[0].At(2, 2)
		if (cell.Kind == decode.Number) != isNumber {
			// A decimal comma elsewhere in the file changes what a point means.
			t.Errorf("%q: %+v, want a number: %v", text, cell, isNumber)
		}
	}
}

// TestPointBesideDecimalComma: 1.234 may be one thousand and more.
func TestPointBesideDecimalComma(t *testing.T) {
	for text, kind := range map[string]decode.Kind{
		"price;lift\n1.234;0,5\n":         decode.Text,
		"price;lift\n1.234;12,75\n":       decode.Text,
		"price;lift\n1.234;0.5\n":         decode.Number,
		"price;lift\n1.234;\"1,250\"\n":   decode.Number, // a group of three: no decimal comma
		"price;lift\n1.234;\"0,250\"\n":   decode.Text,
		"price;lift\n1.234;1234,250\n":    decode.Text,
		"price;lift\n1.234;a, b\n":        decode.Number,
		"price;lift\n1.234;\"1,234.5\"\n": decode.Number,
	} {
		if cell := mustDecode(t, []byte(text)).Sheets[0].At(2, 1); cell.Kind != kind || cell.Text != "1.234" {
			t.Errorf("%q: %+v", text, cell)
		}
	}
}

func TestTextThatIsRefused(t *testing.T) {
	for name, test := range map[string]struct{ text, kind string }{
		"open quote":              {"a,b\n\"x,y\n", decode.Damaged},
		"text behind a quote":     {"a,b\n\"x\"y,z\n", decode.Damaged},
		"zeros inside":            {"a,b\n1,2\n\x00\x00\x00\x00\n", decode.Damaged},
		"control characters":      {"a,b\n1,\x02\n", decode.UnknownFormat},
		"no character set at all": {"a,b\n1,\x81\xff\x8d\n", decode.UnknownFormat},
		"marked, but not UTF-8":   {"\ufeffa,b\n1,\xff\n", decode.Damaged},
		"commas in and between":   {"Flow\nlift,cfm\n0,100,60,5\n0,200,116,0\n", decode.Ambiguous},
		"one column of decimals":  {"lift\n0,100\n0,200\n", decode.Ambiguous},
		"blank lines only":        {"\n \n,,\n", decode.EmptyFile},
	} {
		t.Run(name, func(t *testing.T) {
			if r := refusal(t, []byte(test.text), decode.Defaults()); r.Kind != test.kind {
				t.Errorf("refused as %s: %s", r.Kind, r.Message)
			}
		})
	}
}

// TestAgreesWithCSVReaders: what encoding/csv and Python's csv module write
// comes back.
func TestAgreesWithCSVReaders(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		width := rapid.IntRange(2, 5).Draw(rt, "width")
		delimiter := rapid.SampledFrom([]rune{',', ';', '\t', '|'}).Draw(rt, "delimiter")
		var rows [][]string
		for range rapid.IntRange(3, 8).Draw(rt, "rows") {
			row := make([]string, width)
			for i := range row {
				row[i] = rapid.StringMatching(`[a-zØ"\n 0-9.]{0,6}[a-z]`).Draw(rt, "field")
			}
			rows = append(rows, row)
		}
		var buffer bytes.Buffer
		w := csv.NewWriter(&buffer)
		w.Comma = delimiter
		if err := w.WriteAll(rows); err != nil {
			rt.Fatal(err)
		}
		if diff := cmp.Diff(rows, table(t, buffer.Bytes())); diff != "" {
			rt.Fatalf("%q (-want +got):\n%s", buffer.String(), diff)
		}
	})
	t.Run("python", func(t *testing.T) {
		needProgram(t, debianPython)
		out, err := exec.Command(debianPython, "-c", `
import csv, sys
w = csv.writer(sys.stdout, delimiter=";")
w.writerows([["head", "note"], ["LKC-12", 'bore 4.030", "wet"'], ["PW-31", "two\nlines; one cell"]])`).Output()
		if err != nil {
			t.Fatal(err)
		}
		want := [][]string{{"head", "note"}, {"LKC-12", `bore 4.030", "wet"`}, {"PW-31", "two\nlines; one cell"}}
		if diff := cmp.Diff(want, table(t, out)); diff != "" {
			t.Errorf("(-want +got):\n%s", diff)
		}
	})
}

// FuzzText feeds any bytes to the text decoder.
func FuzzText(f *testing.F) {
	for _, seed := range []string{"a,b\n1,2\n", "sep=;\na;b\n", "\"a\"\"\n\";1,5\n", "\xff\xfea\x00,\x00b\x00", "\xd8;\x80\n", "\ufeffx\t.5", "a\x00b\x00"} {
		f.Add([]byte(seed))
	}
	limits := decode.Defaults()
	limits.Cells, limits.Rows, limits.Cols = 1000, 500, 100
	f.Fuzz(func(t *testing.T, content []byte) {
		book, err := decode.CSV{}.Decode(context.Background(), "book.csv", content, limits)
		var refused *decode.Refusal
		if err != nil {
			if !errors.As(err, &refused) {
				t.Fatalf("not a Refusal: %v", err)
			}
			return
		}
		checkGrid(t, book, limits)
		// Nothing is lost: every letter and digit of the text is in some cell.
		if got, want := lettersOf(book), letters(content); want >= 0 && got != want && !bytes.HasPrefix(bytes.ToLower(content), []byte("sep=")) {
			t.Fatalf("%d letters of %d", got, want)
		}
	})
}

func lettersOf(book *decode.Book) int {
	n := 0
	for _, c := range book.Sheets[0].Cells {
		n += letters([]byte(c.Text))
	}
	return n
}

// letters counts ASCII letters and digits; -1 for text in UTF-16.
func letters(text []byte) int {
	if bytes.IndexByte(text, 0) >= 0 || bytes.HasPrefix(text, []byte("\xff\xfe")) || bytes.HasPrefix(text, []byte("\xfe\xff")) {
		return -1
	}
	n := 0
	for _, b := range text {
		if strings.IndexByte("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789", b) >= 0 {
			n++
		}
	}
	return n
}
