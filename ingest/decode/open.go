package decode

import (
	"bytes"
	"context"
)

// The first bytes of formats that are told apart before they are read.
const (
	oleSignature = "\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" // compound file: .xls, and .xlsx with a password
	zipSignature = "PK\x03\x04"
)

// Open decodes a file. The content decides what it is, not the name: files from
// a phone or a mail program carry any extension. An error is a *Refusal when
// the content is at fault.
func Open(ctx context.Context, name string, content []byte, limits Limits) (*Book, error) {
	if int64(len(content)) > limits.FileBytes {
		return nil, tooLarge("it has %d MB and %d MB are the most that is read",
			len(content)>>20, limits.FileBytes>>20)
	}
	decoder, err := recognise(content)
	if err != nil {
		return nil, err
	}
	return decoder.Decode(ctx, name, content, limits)
}

// recognise picks the decoder for a content.
func recognise(content []byte) (Decoder, error) {
	switch {
	case len(content) == 0:
		return nil, &Refusal{Kind: EmptyFile, Retry: true, Message: "This file is empty.", Hint: hintCopyAgain}
	case bytes.HasPrefix(content, []byte(zipSignature)):
		return packed{}, nil
	case bytes.HasPrefix(content, []byte(oleSignature)):
		return XLS{}, nil
	case bytes.HasPrefix(content, []byte("\x00\x00\x00\x00")):
		return nil, halfWritten("it begins with zeros")
	case hasZipEnd(content):
		return nil, halfWritten("its beginning is missing")
	case bytes.HasPrefix([]byte(zipSignature), content), bytes.HasPrefix([]byte(oleSignature), content):
		return nil, halfWritten("only its first bytes are there")
	}
	if err := foreign(content); err != nil {
		return nil, err
	}
	return CSV{}, nil
}

// packed reads the formats that are zip containers.
type packed struct{}

func (packed) Decode(ctx context.Context, _ string, content []byte, limits Limits) (*Book, error) {
	c, err := openContainer(content, newBudget(limits))
	if err != nil {
		return nil, err
	}
	switch {
	case c.has(contentTypesPart):
		return decodeWorkbook(ctx, c)
	case c.has(odsMark):
		return decodeDocument(ctx, c)
	}
	return nil, unknown("This is a zip archive and not a workbook; unpack it and drop the workbooks in it.")
}

// foreign refuses contents that people drop for a workbook and that are none.
func foreign(content []byte) error {
	const (
		page    = "This is a web page with the name of a spreadsheet; open it in your spreadsheet program, save as .xlsx and drop again."
		archive = "This is a web archive with the name of a spreadsheet; open it in your spreadsheet program, save as .xlsx and drop again."
		xml     = "This is an XML file; if your spreadsheet program opens it, please save as .xlsx and drop again."
		picture = "This is a picture, from which no figures are read."
	)
	start := bytes.TrimLeft(bytes.TrimPrefix(content, []byte(byteOrderMark)), " \t\r\n")
	for _, known := range []struct {
		prefix  string
		refusal *Refusal
	}{
		{"%pdf-", unknown("This is a PDF, from which no figures are read.")},
		{"\x89png\r\n", unknown(picture)},
		{"\xff\xd8\xff", unknown(picture)},
		{"gif8", unknown(picture)},
		{`{\rtf`, unknown("This is a text document and not a workbook.")},
		{"mime-version:", oldFormat(archive)},
		{"<!doctype html", oldFormat(page)},
		{"<html", oldFormat(page)},
		{"<table", oldFormat(page)},
		{"<meta", oldFormat(page)},
		{"<?xml", oldFormat(xml)},
		{"<workbook", oldFormat(xml)},
	} {
		if hasPrefixFold(start, known.prefix) {
			return known.refusal
		}
	}
	return nil
}

// hasPrefixFold compares without regard to the case of ASCII letters; prefix
// is in lower case.
func hasPrefixFold(content []byte, prefix string) bool {
	if len(content) < len(prefix) {
		return false
	}
	for i := range len(prefix) {
		b := content[i]
		if b >= 'A' && b <= 'Z' {
			b |= 0x20
		}
		if b != prefix[i] {
			return false
		}
	}
	return true
}
