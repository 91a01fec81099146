package main

import (
	"context"

	"github.com/rs/zerolog"

	"flowshelf/export/publish"
	"flowshelf/ingest/watch"
)

// alone is a folder in the hands of a command that makes one pass.
type alone struct {
	*app
	state  *state
	door   *watch.Door
	writer *holder
}

// alone takes a folder in hand for one pass: what is kept of it on this machine,
// and the right to write into it.
func (a *app) alone(ctx context.Context, folder string) (*alone, error) {
	s, err := a.openState(identity(folder, a.config.Output.Folder), zerolog.DebugLevel)
	if err != nil {
		return nil, err
	}
	one := &alone{app: a, state: s, door: watch.NewDoor(a.config.Watch.Deadline)}
	one.writer, err = a.claim(ctx, folder, "", s, one.door, func(error) {}) // asked before each workbook
	if err != nil {
		one.closeState()
		return nil, err
	}
	return one, nil
}

// pass completes what a pass needs.
func (o *alone) pass(p pass) pass {
	p.publisher = publish.New(publish.Options{Retry: o.config.Output.Retry})
	p.memory, p.made, p.door, p.mayWrite = o.state.memory(), o.state.outputs(), o.door, o.writer.check
	return p
}

func (o *alone) end() {
	o.writer.release()
	o.closeState()
}

func (o *alone) closeState() {
	if o.state.cache != nil {
		if err := o.state.cache.Trouble(); err != nil {
			o.log.Warn().Err(err).Msg("what was read could not be kept or recalled; it is read again")
		}
	}
	if err := o.state.close(); err != nil {
		o.log.Warn().Err(err).Msg("what was read could not all be kept")
	}
}
