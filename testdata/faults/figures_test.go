//go:build unix

package faults_test

import (
	"fmt"
	"os"
	"testing"
	"time"
)

// filled is a folder of n flow sheets of the own bench: n/4 heads, each tested
// four times, in families as large as a shop's.
func filled(b *testing.B, n int) (f *shopFolder, readings int) {
	b.Helper()
	heads := names(max(1, n/4))
	f = newFolder(b, heads...)
	for i := range n {
		one := sheet{heads[i%len(heads)], i}
		f.put(b, fmt.Sprintf("bench/%02d/sheet %05d.xlsx", i%50, i), one.xlsx())
		readings += one.readings()
	}
	f.env = nil // every wait is the default's here, and what beats at every moment elsewhere would be measured as work
	f.own()
	return f, readings
}

// BenchmarkOneMoreWorkbook drops one complete workbook into a folder that has
// been read. Beyond the settle time it measures what passes until the ranking
// of its family stands rewritten.
func BenchmarkOneMoreWorkbook(b *testing.B) {
	for _, n := range []int{1000, 5000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			f, readings := filled(b, n)
			s := f.watch(b)
			s.readings(b, readings, 10*time.Minute)
			before, err := s.health()
			must(b, err)
			var spent time.Duration
			used := s.processor(b)
			for i := range b.N {
				stood, err := os.Stat(f.at(ranked))
				must(b, err)
				one := sheet{names(1)[0], 50 + i}
				f.put(b, fmt.Sprintf("bench/new %d.xlsx", i), one.xlsx())
				start := time.Now()
				for now := stood; now.ModTime().Equal(stood.ModTime()); now, err = os.Stat(f.at(ranked)) {
					must(b, err)
					if time.Since(start) > 5*time.Minute {
						b.Fatal("the ranking was not rewritten")
					}
					time.Sleep(5 * time.Millisecond)
				}
				spent += time.Since(start) - 2*time.Second
				readings += one.readings()
				s.readings(b, readings, 5*time.Minute)
			}
			after, err := s.health()
			must(b, err)
			b.ReportMetric((s.processor(b)-used).Seconds()/float64(b.N), "cpu-s/op")
			b.ReportMetric(spent.Seconds()/float64(b.N), "s-beyond-settle/op")
			b.ReportMetric(float64(after.Read-before.Read)/float64(b.N), "files-read/op")
			b.ReportMetric(float64(after.Written-before.Written)/float64(b.N), "workbooks-written/op")
			b.ReportMetric(float64(s.resident(b, "VmHWM")), "peak-MB")
			b.ReportMetric(0, "ns/op")
		})
	}
}

// BenchmarkColdRead starts on a full folder with nothing kept. It ends when
// every workbook stands.
func BenchmarkColdRead(b *testing.B) {
	for _, n := range []int{1000, 10_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			f, readings := filled(b, n)
			for range b.N {
				must(b, os.RemoveAll(f.state))
				must(b, os.RemoveAll(f.at("Ranked/Folder status.xlsx")))
				s := f.watch(b)
				took := s.readings(b, readings, 30*time.Minute)
				b.ReportMetric(took.Seconds()-2, "s-beyond-settle/op")
				b.ReportMetric(s.processor(b).Seconds(), "cpu-s/op")
				b.ReportMetric(float64(s.resident(b, "VmHWM")), "peak-MB")
				s.stop(b)
				s = f.watch(b)
				took = s.readings(b, readings, 30*time.Minute)
				again, err := s.health()
				must(b, err)
				b.ReportMetric(took.Seconds(), "s-restart/op")
				b.ReportMetric(s.processor(b).Seconds(), "cpu-s-restart/op")
				b.ReportMetric(float64(again.Read), "files-read-at-restart/op")
				s.stop(b)
			}
			b.ReportMetric(0, "ns/op")
		})
	}
}

// BenchmarkColdRun runs `run` once on a full folder with nothing kept and nothing
// written, and once more, as a restart does. The seconds of work are those of the
// program and of the processes that it starts.
func BenchmarkColdRun(b *testing.B) {
	const n = 1000
	f, _ := filled(b, n)
	for range b.N {
		must(b, os.RemoveAll(f.state))
		must(b, os.RemoveAll(f.at("Ranked")))
		for _, name := range []string{"cpu-s/op", "cpu-s-restart/op"} {
			cmd := f.command("run", f.path, "--date", "2026-03-16")
			if err := cmd.Run(); err != nil && cmd.ProcessState.ExitCode() != exitQuestions {
				b.Fatal(err)
			}
			b.ReportMetric((cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()).Seconds(), name)
		}
	}
	b.ReportMetric(0, "ns/op")
}

const exitQuestions = 3 // of a run that has something to ask

// BenchmarkIdle leaves the service alone over a full folder.
func BenchmarkIdle(b *testing.B) {
	const n = 10_000
	f, readings := filled(b, n)
	s := f.watch(b)
	s.readings(b, readings, 30*time.Minute)
	time.Sleep(5 * time.Second)
	for range b.N {
		used, start := s.processor(b), time.Now()
		time.Sleep(time.Duration(scaled(2, 10)) * time.Minute)
		b.ReportMetric(100*(s.processor(b)-used).Seconds()/time.Since(start).Seconds(), "%-of-a-core")
		b.ReportMetric(float64(s.resident(b, "VmRSS")), "MB")
	}
	b.ReportMetric(0, "ns/op")
}
