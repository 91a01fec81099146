package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"
	"syscall"
	"time"

	"github.com/rs/zerolog"
	"github.com/spf13/cobra"

	"flowshelf/config"
)

// app is what every command shares: where it writes, how it is set up, and
// what it logs to.
type app struct {
	stdout, stderr io.Writer
	config         config.Config
	log            zerolog.Logger
	today          func() time.Time // the day that the service works for
	code           int              // exit code of a command that ended without an error
	marker         marker           // of the copies that a pass marks
	memory         memory
}

// execute runs one command line and returns its exit code.
func execute(args []string, stdout, stderr io.Writer) int {
	return executeOn(today, args, stdout, stderr)
}

// executeOn is execute by a calendar of one's own.
func executeOn(today func() time.Time, args []string, stdout, stderr io.Writer) int {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	context.AfterFunc(ctx, stop) // a second signal ends at once
	a := &app{stdout: stdout, stderr: stderr, log: zerolog.Nop(), today: today}
	defer a.memory.end()
	root := a.root()
	root.SetArgs(args)
	if err := root.ExecuteContext(ctx); err != nil {
		complain(stderr, err)
		return exitCode(err)
	}
	return a.code
}

func (a *app) root() *cobra.Command {
	var configFile string
	root := &cobra.Command{
		Use:   "flowshelf",
		Short: "Ranks cylinder heads from the workbooks in a folder",
		Long: `flowshelf reads the flow sheets, price lists and stock books that people drop in a
folder and writes ranked comparison workbooks back to it.

Exit codes: 0 everything was read; 1 the run failed; 2 wrong usage;
3 finished, with questions open or files set aside.`,
		SilenceErrors: true,
		SilenceUsage:  true,
		PersistentPreRunE: func(cmd *cobra.Command, _ []string) error {
			return a.configure(cmd, configFile)
		},
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usage("no command given", "see flowshelf --help")
			}
			return usage(fmt.Sprintf("there is no command %q", args[0]), "see flowshelf --help")
		},
		RunE: func(*cobra.Command, []string) error { return nil }, // never reached: Args refuses every line
	}
	root.SetOut(a.stdout)
	root.SetErr(a.stderr)
	root.CompletionOptions.DisableDefaultCmd = true
	root.SetFlagErrorFunc(func(cmd *cobra.Command, err error) error {
		return usage(err.Error(), "see "+cmd.CommandPath()+" --help")
	})
	flags := root.PersistentFlags()
	flags.StringVar(&configFile, "config", "", "file with the service's settings (YAML, TOML or JSON)")
	flags.String("log-format", "", "text or json (default: text on a terminal, JSON otherwise)")
	flags.String("log-level", "", "debug, info, warn or error (default: info)")
	root.AddCommand(a.initCommand(), a.runCommand(), a.watchCommand(), a.serviceCommand(), a.reviewCommand(), a.inspectCommand(), a.markCopiesCommand())
	return root
}

// configure loads the settings and starts the log. A setting at fault is a
// wrong use of the program.
func (a *app) configure(cmd *cobra.Command, file string) error {
	if file == "" {
		file = os.Getenv(config.FileEnv)
	}
	c, err := config.Load(config.Sources{File: file, Flags: cmd.Flags()})
	if err != nil {
		return &failure{code: exitUsage, err: err}
	}
	a.config = c
	const itself = 32 << 20 // of the program's file in memory, which the runtime does not count
	a.memory.keep(c.Limits.MemoryBytes - itself)
	if a.log, err = newLog(a.stderr, c.Log); err != nil {
		return &failure{exitUsage, fmt.Errorf("the log file cannot be written: %w", err), "log.file takes a file that this user may write, or none"}
	}
	return nil
}

// oneArgument accepts exactly one argument.
func oneArgument(what string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		switch {
		case len(args) == 0:
			return usage(fmt.Sprintf("%s needs a %s", cmd.CommandPath(), what), "as in: "+cmd.UseLine())
		case len(args) > 1:
			return usage(fmt.Sprintf("%s takes one %s, and %d were given", cmd.CommandPath(), what, len(args)),
				"put a name with spaces in quotes")
		}
		return nil
	}
}

// The exit codes.
const (
	exitFailed    = 1
	exitUsage     = 2
	exitQuestions = 3
)

// failure is an error with its exit code and what would help.
type failure struct {
	code int
	err  error
	hint string
}

func (f *failure) Error() string { return f.err.Error() }
func (f *failure) Unwrap() error { return f.err }

// Hint says what would help, "" when nothing is known to.
func (f *failure) Hint() string { return f.hint }

func usage(message, hint string) error {
	return &failure{code: exitUsage, err: errors.New(message), hint: hint}
}

func exitCode(err error) int {
	if f := (*failure)(nil); errors.As(err, &f) {
		return f.code
	}
	return exitFailed
}

// complain prints an error and what would help, a line each.
func complain(w io.Writer, err error) {
	fmt.Fprintf(w, "error: %s\n", strings.ReplaceAll(err.Error(), "\n", "; "))
	for e := err; e != nil; e = errors.Unwrap(e) {
		if h, ok := e.(interface{ Hint() string }); ok && h.Hint() != "" {
			fmt.Fprintf(w, "hint: %s\n", h.Hint())
			return
		}
	}
}
