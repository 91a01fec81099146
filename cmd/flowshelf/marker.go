package main

import (
	"context"
	"encoding/gob"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"strconv"
	"time"

	"github.com/spf13/cobra"

	"flowshelf/export/marked"
)

// markCopiesName is the command that a pass starts to mark copies.
const markCopiesName = "mark-copies"

// markJob is what that command reads from its standard input for each copy.
type markJob struct {
	Original marked.Original
	Findings []marked.Finding
	Limits   marked.Limits
}

// markDone is what it writes to its standard output for each: the copy, or why
// there can be none.
type markDone struct {
	Copy    []byte
	Refused string
}

func (a *app) markCopiesCommand() *cobra.Command {
	var memory uint64
	cmd := &cobra.Command{
		Use:    markCopiesName,
		Short:  "Mark copies of workbooks, for a pass",
		Hidden: true,
		Args:   cobra.NoArgs,
		RunE:   func(cmd *cobra.Command, _ []string) error { return a.markCopies(cmd.InOrStdin(), memory) },
	}
	cmd.Flags().Uint64Var(&memory, "memory", 0, "bytes of memory to end at")
	return cmd
}

// markCopies does one job after another until there are no more.
func (a *app) markCopies(in io.Reader, memory uint64) error {
	const reserve = 0.8 // of the memory: from there on, space is won back at some price
	a.memory.keep(int64(float64(memory) * reserve))
	if err := limitMemory(memory); err != nil {
		return err
	}
	jobs, copies := gob.NewDecoder(in), gob.NewEncoder(a.stdout)
	for {
		var job markJob
		if err := jobs.Decode(&job); errors.Is(err, io.EOF) {
			return nil
		} else if err != nil {
			return fmt.Errorf("the job cannot be read: %w", err)
		}
		content, err := marked.Make(job.Original, job.Findings, job.Limits)
		done := markDone{Copy: content}
		if err != nil {
			done.Refused = err.Error()
		}
		if err := copies.Encode(done); err != nil {
			return err
		}
	}
}

// marker marks copies in a process of its own, one after another. A workbook that
// uses up time or memory there, or meets a fault of the program, costs its own
// copy: the process ends, and the next copy starts another. The zero marker has
// none yet.
type marker struct {
	child *markChild
}

// bounds are what marking may take.
type bounds struct {
	memory uint64        // of the process, in bytes
	time   time.Duration // of one copy
}

// What is said of a process that gave no answer. What the runtime prints when
// memory is refused has too many forms to tell it from a fault of ours.
var (
	errMarkerDied  = errors.New("marking it takes too much memory, or met a fault of the program")
	errMarkerSlow  = errors.New("marking it took too long")
	errInterrupted = errors.New("interrupted")
)

// mark makes one copy. Its error is a few plain words.
func (m *marker) mark(ctx context.Context, job markJob, within bounds) ([]byte, error) {
	worked := m.child != nil
	done, err := m.ask(ctx, job, within)
	if worked && errors.Is(err, errMarkerDied) {
		done, err = m.ask(ctx, job, within) // what earlier copies left in its memory must not count against this one
	}
	switch {
	case err != nil:
		return nil, err
	case done.Refused != "":
		return nil, errors.New(done.Refused)
	}
	return done.Copy, nil
}

// ask has the process do one job. Without an answer there is no process any more.
func (m *marker) ask(ctx context.Context, job markJob, within bounds) (markDone, error) {
	ctx, cancel := context.WithTimeout(ctx, within.time)
	defer cancel()
	if m.child == nil {
		child, err := startMarking(within.memory)
		if err != nil {
			return markDone{}, errMarkerDied
		}
		m.child = child
	}
	spare := context.AfterFunc(ctx, m.child.kill)
	done, err := m.child.do(job)
	if !spare() || err != nil {
		m.rest()
	}
	switch {
	case errors.Is(ctx.Err(), context.DeadlineExceeded):
		return markDone{}, errMarkerSlow
	case ctx.Err() != nil:
		return markDone{}, errInterrupted
	case err != nil:
		return markDone{}, errMarkerDied
	}
	return done, nil
}

// rest ends the process, which holds nothing that would be lost.
func (m *marker) rest() {
	if m.child != nil {
		m.child.kill()
		_ = m.child.cmd.Wait() // killed: it has nothing more to say
		m.child = nil
	}
}

// markChild is the process. It ends with this one, because its input does.
type markChild struct {
	cmd    *exec.Cmd
	jobs   *gob.Encoder
	copies *gob.Decoder
}

func startMarking(memory uint64) (*markChild, error) {
	program, err := os.Executable()
	if err != nil {
		return nil, err
	}
	//nolint:gosec,noctx // it is this very program, and it outlives the context of one copy
	cmd := exec.Command(program, markCopiesName, "--memory", strconv.FormatUint(memory, 10))
	cmd.Args[0] = "flowshelf" // whatever the file is called
	in, err := cmd.StdinPipe()
	if err != nil {
		return nil, err
	}
	out, err := cmd.StdoutPipe()
	if err != nil {
		return nil, err
	}
	if err := cmd.Start(); err != nil {
		return nil, err
	}
	return &markChild{cmd, gob.NewEncoder(in), gob.NewDecoder(out)}, nil
}

// do hands a job over and waits for what became of it.
func (c *markChild) do(job markJob) (done markDone, err error) {
	if err := c.jobs.Encode(job); err != nil {
		return markDone{}, err
	}
	err = c.copies.Decode(&done)
	return done, err
}

func (c *markChild) kill() { _ = c.cmd.Process.Kill() } // ended already is as good
