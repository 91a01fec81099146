//go:build !linux

package watch

// OnNetwork reports whether a folder lies on a network. Where the system is not
// asked every folder counts as one: it is looked at more often.
func OnNetwork(string) bool { return true }
