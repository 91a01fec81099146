package main

import "golang.org/x/sys/unix"

// limitMemory makes this process end where it would hold more than so many
// bytes. It counts what is written to, not what is only reserved: the runtime
// reserves much more than it uses.
func limitMemory(bytes uint64) error {
	return unix.Setrlimit(unix.RLIMIT_DATA, &unix.Rlimit{Cur: bytes, Max: bytes})
}
