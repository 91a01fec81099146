//go:build !unix

package main

import "github.com/rogpeppe/go-internal/testscript"

// nobodyCommand is code: this system has no user without rights to borrow.
func nobodyCommand(ts *testscript.TestScript, neg bool, args []string) { codeCommand(ts, neg, args) }
