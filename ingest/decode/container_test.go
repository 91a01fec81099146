package decode_test

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"strings"
	"testing"

	"flowshelf/ingest/decode"
)

const oneRow = `<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1"><v>0.3</v></c></row>`

func TestContainersThatAreRefused(t *testing.T) {
	good := workbookParts(sheetWith(oneRow))
	packed := pack(t, good)
	for name, test := range map[string]struct {
		content []byte
		kind    string
	}{
		"a part twice":               {pack(t, append(workbookParts(sheetWith(oneRow)), part{"xl/worksheets/sheet1.xml", "<a/>"})), decode.Damaged},
		"a part twice, other case":   {pack(t, append(workbookParts(sheetWith(oneRow)), part{"XL/Worksheets/Sheet1.xml", "<a/>"})), decode.Damaged},
		"a part above the root":      {pack(t, append(workbookParts(sheetWith(oneRow)), part{"../sheet.xml", "<a/>"})), decode.Damaged},
		"a part inside, by dots":     {pack(t, append(workbookParts(sheetWith(oneRow)), part{"xl/../xl/x.xml", "<a/>"})), decode.Damaged},
		"an idle part is broken":     {pack(t, append(workbookParts(sheetWith(oneRow)), part{"customXml/item1.xml", "<a><b></a>"})), decode.Damaged},
		"a zip archive":              {pack(t, []part{{"flow.csv", "lift,cfm"}}), decode.UnknownFormat},
		"checksum of zero":           {withoutChecksum(packed), decode.Damaged},
		"password on the entries":    {withFlag(packed, 1), decode.Encrypted},
		"false length":               {withLength(packed, 1<<30), decode.Damaged},
		"false length, not packed":   {withLength(stored(t), 7), decode.Damaged},
		"overlapping entries":        {overlapping(t), decode.Damaged},
		"a text document":            {pack(t, replaced(good, "spreadsheetml.sheet.main", "wordprocessingml.document.main")), decode.UnknownFormat},
		"a binary workbook":          {pack(t, replaced(good, "openxmlformats-officedocument.spreadsheetml.sheet.main+xml", "ms-excel.sheet.binary.macroEnabled.main")), decode.OldFormat},
		"the sheet part is missing":  {pack(t, without(good, "xl/worksheets/sheet1.xml")), decode.Damaged},
		"no shared strings":          {pack(t, without(good, "xl/sharedStrings.xml")), decode.Damaged},
		"no relationships":           {pack(t, without(good, "xl/_rels/workbook.xml.rels")), decode.Damaged},
		"no main relationship":       {pack(t, without(good, "_rels/.rels")), decode.Damaged},
		"two sheets with one name":   {pack(t, replaced(good, "</sheets>", `<sheet name="FLOW" r:id="r1"/></sheets>`)), decode.Damaged},
		"the sheet is somewhere out": {pack(t, replaced(good, `Target="worksheets/sheet1.xml"`, `Target="http://x/y.xml" TargetMode="External"`)), decode.Damaged},
	} {
		t.Run(name, func(t *testing.T) {
			if r := refusal(t, test.content, decode.Defaults()); r.Kind != test.kind {
				t.Errorf("refused as %s (%s), want %s", r.Kind, r.Message, test.kind)
			}
		})
	}
}

// TestContainersThatAreRead has what careless but harmless writers do.
func TestContainersThatAreRead(t *testing.T) {
	good := workbookParts(sheetWith(oneRow))
	for name, content := range map[string][]byte{
		"as it should be":    pack(t, good),
		"backslashes":        pack(t, renamed(good, "/", `\`)),
		"other case":         pack(t, renamed(good, "sheet1", "Sheet1")),
		"absolute targets":   pack(t, replaced(good, `Target="worksheets/`, `Target="/xl/worksheets/`)),
		"targets with dots":  pack(t, replaced(good, `Target="worksheets/`, `Target="../xl/worksheets/`)),
		"folders as entries": pack(t, append([]part{{"xl/", ""}}, good...)),
		"not packed":         stored(t),
	} {
		t.Run(name, func(t *testing.T) {
			book := mustDecode(t, content)
			if got := book.Sheets[0].At(1, 2).Num; got != 0.3 {
				t.Errorf("B1 is %v, want 0.3", got)
			}
		})
	}
}

func TestMacrosAndLinksAreSeen(t *testing.T) {
	if book := open(t, "macros.xlsm"); !book.Macros || book.Format != "xlsm" {
		t.Errorf("macros %v, format %s", book.Macros, book.Format)
	}
	const link = `<Relationship Id="r9" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/externalLink" Target="externalLinks/externalLink1.xml"/>`
	parts := replaced(workbookParts(sheetWith(oneRow)), `Target="styles.xml"/>`, `Target="styles.xml"/>`+link)
	parts = append(parts, part{"xl/externalLinks/externalLink1.xml", "<externalLink/>"})
	if book := mustDecode(t, pack(t, parts)); book.Links != 1 || book.Macros {
		t.Errorf("%d links, macros %v", book.Links, book.Macros)
	}
}

// central calls change for each header in the directory of a zip file.
func central(content []byte, change func(header []byte)) []byte {
	out := bytes.Clone(content)
	for at := bytes.Index(out, []byte("PK\x01\x02")); at >= 0; {
		change(out[at:])
		next := bytes.Index(out[at+4:], []byte("PK\x01\x02"))
		if next < 0 {
			break
		}
		at += 4 + next
	}
	return out
}

func withoutChecksum(content []byte) []byte {
	return central(content, func(h []byte) { binary.LittleEndian.PutUint32(h[16:], 0) })
}

func withFlag(content []byte, flag uint16) []byte {
	return central(content, func(h []byte) { binary.LittleEndian.PutUint16(h[8:], flag) })
}

func withLength(content []byte, size uint32) []byte {
	return central(content, func(h []byte) { binary.LittleEndian.PutUint32(h[24:], size) })
}

// overlapping points the last entry at the data of the first.
func overlapping(t *testing.T) []byte {
	same := []part{{"a.xml", "<a/>"}, {"b.xml", "<a/>"}}
	seen := 0
	return central(pack(t, same), func(h []byte) {
		if seen++; seen == 2 {
			binary.LittleEndian.PutUint32(h[42:], 0)
		}
	})
}

// stored zips the smallest workbook without packing it.
func stored(t *testing.T) []byte {
	t.Helper()
	var buffer bytes.Buffer
	w := zip.NewWriter(&buffer)
	for _, p := range workbookParts(sheetWith(oneRow)) {
		f, err := w.CreateHeader(&zip.FileHeader{Name: p.name, Method: zip.Store})
		if err != nil {
			t.Fatal(err)
		}
		if _, err := f.Write([]byte(p.text)); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return buffer.Bytes()
}

func replaced(parts []part, old, replacement string) []part {
	out := make([]part, len(parts))
	for i, p := range parts {
		out[i] = part{p.name, strings.ReplaceAll(p.text, old, replacement)}
	}
	return out
}

func renamed(parts []part, old, replacement string) []part {
	out := make([]part, len(parts))
	for i, p := range parts {
		out[i] = part{strings.ReplaceAll(p.name, old, replacement), p.text}
	}
	return out
}

func without(parts []part, name string) []part {
	var out []part
	for _, p := range parts {
		if p.name != name {
			out = append(out, p)
		}
	}
	return out
}
