package main

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"runtime"

	"github.com/kardianos/service"
	"github.com/spf13/cobra"

	"flowshelf/ingest/watch"
)

// daemonName is the service's name with the system.
const daemonName = "flowshelf"

// unit is the service as systemd is told of it: restarted when it fails, stopped
// with SIGTERM, with a folder of its own for what it keeps (systemd.service(5),
// systemd.exec(5)). It has no /tmp of its own, where a watched folder may lie.
const unit = `[Unit]
Description={{Description}}
ConditionFileIsExecutable={{Path | cmdEscape}}
After=network-online.target remote-fs.target
Wants=network-online.target

[Service]
ExecStart={{Path | cmdEscape}}{{range Arguments}} {{. | cmd}}{{end}}
{{if UserName}}User={{UserName}}
{{end}}Restart=on-failure
RestartSec=10
TimeoutStopSec=120
CacheDirectory=flowshelf
NoNewPrivileges=yes
ProtectSystem=full

[Install]
WantedBy=multi-user.target
`

func (a *app) serviceCommand() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "service",
		Short: "Have the system run watch: install, remove, start, stop, status",
		Long:  "Installs `watch FOLDER` as a service of the system (systemd, or a Windows service) and controls it.",
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usage("service needs an action", "one of install, remove, start, stop, status")
			}
			return usage(fmt.Sprintf("there is no action %q", args[0]), "one of install, remove, start, stop, status")
		},
		RunE: func(*cobra.Command, []string) error { return nil }, // never reached: Args refuses every line
	}
	cmd.AddCommand(a.installCommand(), a.runServiceCommand(), a.statusCommand())
	for action, short := range map[string]string{
		"remove": "Take the service out of the system", "start": "Start the installed service", "stop": "Stop the service after the pass in hand",
	} {
		cmd.AddCommand(a.controlCommand(action, short))
	}
	return cmd
}

func (a *app) installCommand() *cobra.Command {
	var user string
	cmd := &cobra.Command{
		Use:   "install FOLDER",
		Short: "Install the service for a folder; --config goes with it",
		Args:  oneArgument("folder"),
		RunE: func(cmd *cobra.Command, args []string) error {
			settings := ""
			if f := cmd.Flag("config"); f != nil {
				settings = f.Value.String()
			}
			c, err := a.daemon(args[0], settings)
			if err != nil {
				return err
			}
			c.UserName = user
			return a.control(c, "install", "installed; `flowshelf service start` starts it")
		},
	}
	cmd.Flags().StringVar(&user, "user", "", "user that the service runs as (default: the system's own)")
	return cmd
}

// daemon describes the service for a folder, which must be one that a service
// can see.
func (a *app) daemon(folder, settings string) (*service.Config, error) {
	path, err := filepath.Abs(folder)
	if err != nil {
		return nil, err
	}
	if mappedDrive(path) {
		return nil, usage(fmt.Sprintf("%s is a mapped drive, which a service does not see", filepath.VolumeName(path)),
			`name the share itself, as in \\server\share\heads`)
	}
	if _, err := watch.Marker(watch.Dir(path), a.config.Output.Folder); err != nil {
		return nil, &failure{exitFailed, fmt.Errorf("%s: %w", path, err), "run `flowshelf init` on the folder first"}
	}
	c := daemonConfig()
	c.Arguments = []string{"watch", path}
	if runtime.GOOS == "windows" { // its service manager speaks to the program
		c.Arguments = []string{"service", "run", path}
	}
	if settings != "" {
		if settings, err = filepath.Abs(settings); err != nil {
			return nil, err
		}
		c.Arguments = append(c.Arguments, "--config", settings)
	}
	return c, nil
}

func daemonConfig() *service.Config {
	return &service.Config{Name: daemonName, DisplayName: "flowshelf", Description: "flowshelf: ranks cylinder heads from the workbooks in a folder",
		Option: service.KeyValue{"SystemdScript": unit}}
}

func (a *app) controlCommand(action, short string) *cobra.Command {
	return &cobra.Command{Use: action, Short: short, Args: noArguments,
		RunE: func(*cobra.Command, []string) error {
			done := map[string]string{"remove": "removed", "start": "started", "stop": "stopped"}[action]
			if action == "remove" {
				action = "uninstall"
			}
			return a.control(daemonConfig(), action, done)
		}}
}

func noArguments(cmd *cobra.Command, args []string) error {
	if len(args) > 0 {
		return usage(cmd.CommandPath()+" takes nothing more", "as in: "+cmd.CommandPath())
	}
	return nil
}

// control asks the system to do something with the service.
func (a *app) control(c *service.Config, action, done string) error {
	s, err := a.system(c, &daemon{app: a})
	if err != nil {
		return err
	}
	if err := service.Control(s, action); err != nil {
		return &failure{exitFailed, err, "run it as an administrator, and see `flowshelf service status`"}
	}
	fmt.Fprintf(a.stdout, "the service is %s\n", done)
	return nil
}

// system returns the service manager's view of the service.
func (a *app) system(c *service.Config, d *daemon) (service.Service, error) {
	if p := service.Platform(); p != "linux-systemd" && p != "windows-service" {
		return nil, &failure{exitFailed, errors.New("this system has neither systemd nor Windows services"),
			"have your own service manager run `flowshelf watch FOLDER`: it ends on SIGTERM"}
	}
	return service.New(d, c)
}

func (a *app) statusCommand() *cobra.Command {
	return &cobra.Command{Use: "status", Short: "Say whether the service is installed and runs", Args: noArguments,
		RunE: func(*cobra.Command, []string) error {
			s, err := a.system(daemonConfig(), &daemon{app: a})
			if err != nil {
				return err
			}
			status, err := s.Status()
			words := map[service.Status]string{service.StatusRunning: "running", service.StatusStopped: "installed and not running"}[status]
			switch {
			case errors.Is(err, service.ErrNotInstalled):
				words = "not installed"
			case err != nil:
				return &failure{exitFailed, err, ""}
			case words == "":
				words = "in a state that the system does not tell"
			}
			fmt.Fprintf(a.stdout, "the service is %s\n", words)
			return nil
		}}
}

func (a *app) runServiceCommand() *cobra.Command {
	return &cobra.Command{Use: "run FOLDER", Short: "Run as a Windows service", Hidden: true, Args: oneArgument("folder"),
		RunE: func(cmd *cobra.Command, args []string) error {
			d := &daemon{app: a, folder: args[0], ended: make(chan struct{})}
			s, err := a.system(daemonConfig(), d)
			if err != nil {
				return err
			}
			d.ctx, d.cancel = context.WithCancel(cmd.Context())
			return errors.Join(s.Run(), d.err)
		}}
}

// daemon is the service as the service manager starts and stops it.
type daemon struct {
	*app
	folder string
	ctx    context.Context // from Start to Stop, which the interface keeps apart
	cancel context.CancelFunc
	ended  chan struct{}
	err    error
}

// Start implements service.Interface.
func (d *daemon) Start(s service.Service) error {
	go func() {
		d.err = d.watch(d.ctx, d.folder)
		close(d.ended)
		if d.ctx.Err() == nil {
			_ = s.Stop() // it ended of itself: the manager is told
		}
	}()
	return nil
}

// Stop implements service.Interface. It returns when the pass in hand is done.
func (d *daemon) Stop(service.Service) error {
	d.cancel()
	<-d.ended
	return nil
}
