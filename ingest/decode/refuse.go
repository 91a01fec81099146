package decode

import (
	"fmt"
	"strconv"
)

// The kinds of Refusal. They are stable words for code and tests; the sentences
// beside them are free to change.
const (
	Damaged       = "damaged"        // the content contradicts itself or fails its checksums
	Encrypted     = "encrypted"      // a password is needed to read it
	TooLarge      = "too-large"      // one of the Limits is exceeded
	UnknownFormat = "unknown-format" // none of the formats that are read
	OldFormat     = "old-format"     // a spreadsheet format that must be saved anew first
	EmptyFile     = "empty"          // nothing in it
	Ambiguous     = "ambiguous"      // it can be read in two ways
)

const (
	hintCopyAgain = "Copy the file into the folder again; if that does not help, open it in your spreadsheet program, save it under a new name and drop that."
	hintSaveAgain = "Open it in your spreadsheet program, save it as .xlsx under a new name and drop that."
	hintSplit     = "Save only the sheets with readings or prices in a workbook of their own and drop that."
)

// halfWritten refuses content that fails a check in the way an unfinished copy
// does: a later look may succeed.
func halfWritten(format string, args ...any) *Refusal {
	return &Refusal{Kind: Damaged, Hint: hintCopyAgain, Retry: true,
		Message: "This file is damaged or not completely copied: " + fmt.Sprintf(format, args...) + "."}
}

// damaged refuses content that was copied completely and still makes no sense.
func damaged(format string, args ...any) *Refusal {
	return &Refusal{Kind: Damaged, Hint: hintSaveAgain,
		Message: "This file is damaged: " + fmt.Sprintf(format, args...) + "."}
}

// tooLarge refuses content that exceeds a limit.
func tooLarge(format string, args ...any) *Refusal {
	return &Refusal{Kind: TooLarge, Hint: hintSplit,
		Message: "This file is too large: " + fmt.Sprintf(format, args...) + "."}
}

// unknown refuses a format that is not read at all.
func unknown(message string) *Refusal {
	return &Refusal{Kind: UnknownFormat, Message: message, Hint: "Save the figures as .xlsx or .csv and drop that."}
}

// oldFormat refuses a spreadsheet that the writing program can save anew.
func oldFormat(message string) *Refusal {
	return &Refusal{Kind: OldFormat, Message: message}
}

// locked refuses content that only a password opens.
func locked() *Refusal {
	return &Refusal{Kind: Encrypted,
		Message: "This workbook is protected with a password; save a copy without a password and drop that."}
}

// quoted shortens text of a stranger's file for use inside a sentence.
func quoted(text []byte) string {
	const longest = 40
	runes := []rune(string(text[:min(len(text), 4*longest)]))
	if len(runes) > longest {
		return strconv.Quote(string(runes[:longest]) + "...")
	}
	return strconv.Quote(string(runes))
}
