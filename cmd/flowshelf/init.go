package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"

	"flowshelf/analysis/shop"
	"flowshelf/analysis/source"
	"flowshelf/export/setup"
	"flowshelf/ingest/watch"
	"flowshelf/testdata"
)

func (a *app) initCommand() *cobra.Command {
	var demo bool
	var date string
	cmd := &cobra.Command{
		Use:   "init FOLDER",
		Short: "Set a folder up: write " + shop.FileName + " once",
		Long: "Sets a folder up: writes " + shop.FileName + ", which is the shop's to fill in from then on, and the mark by which\n" +
			"`watch` knows the folder. A file that is there already always stays as it is.",
		Args: oneArgument("folder"),
		RunE: func(_ *cobra.Command, args []string) error {
			day, err := parseDay(date)
			if err != nil {
				return err
			}
			if demo {
				return a.setUp(args[0], demoFiles)
			}
			return a.setUp(args[0], setupFile(day))
		},
	}
	cmd.Flags().StringVar(&date, "date", "", "day that the setup is dated, as 2026-03-16 (default: today)")
	cmd.Flags().BoolVar(&demo, "demo", false, "fill the folder with the books of an invented shop")
	return cmd
}

// placer puts one file into a folder unless there is one already.
type placer func(name string, content []byte) error

// setUp creates the folder, its first files and its mark.
func (a *app) setUp(folder string, fill func(placer) error) error {
	if err := os.MkdirAll(folder, 0o777); err != nil {
		return &failure{exitFailed, fmt.Errorf("the folder cannot be made: %w", err), "name a folder that you may write to"}
	}
	root, err := os.OpenRoot(folder)
	if err != nil {
		return err
	}
	defer root.Close()
	if err := fill(func(name string, content []byte) error { return a.place(root, name, content) }); err != nil {
		return &failure{exitFailed, err, "allow this user to write to the folder"}
	}
	if _, err := watch.Mark(root, a.config.Output.Folder); err != nil {
		return &failure{exitFailed, fmt.Errorf("the folder cannot be marked: %w", err), "allow this user to write to the folder"}
	}
	fmt.Fprintf(a.stdout, "%s is set up. What the shop knows goes into %s; flow sheets, price lists and stock books go beside it. Then:\n"+
		"  flowshelf run %q\n", folder, shop.FileName, folder)
	return nil
}

// setupFile places an empty setup, dated a day.
func setupFile(day time.Time) func(placer) error {
	return func(place placer) error {
		content, err := setup.Write(shop.Missing(source.Ref{}).Shop, day)
		if err != nil {
			return err
		}
		return place(shop.FileName, content)
	}
}

func demoFiles(place placer) error {
	demo, err := testdata.Demo()
	if err != nil {
		return err
	}
	return fs.WalkDir(demo, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		content, err := fs.ReadFile(demo, name)
		if err != nil {
			return err
		}
		return place(name, content)
	})
}

// place writes one whole file, or none when the name is taken.
func (a *app) place(root *os.Root, name string, content []byte) error {
	if err := root.MkdirAll(path.Dir(name), 0o777); err != nil {
		return err
	}
	f, err := root.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if errors.Is(err, fs.ErrExist) {
		fmt.Fprintf(a.stdout, "stays     %s\n", filepath.FromSlash(name))
		return nil
	}
	if err != nil {
		return err
	}
	_, err = f.Write(content)
	if err = errors.Join(err, f.Sync(), f.Close()); err != nil {
		return errors.Join(err, root.Remove(name))
	}
	fmt.Fprintf(a.stdout, "written   %s\n", filepath.FromSlash(name))
	return nil
}
