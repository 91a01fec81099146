// Package faults does to the real program what happens to a shared folder: half
// copies, killed machines, full disks, shares that go away. It counts what was
// lost by it, which has to be nothing. All of it is tests, for systems with
// signals and mounts.
//
// The reduced set runs with the other tests; `make faults` runs all of it.
package faults
