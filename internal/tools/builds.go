package main

import (
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

const sizesFile = "SIZES.md"

// mostGrowth is how much larger than committed a program may be, as a part of the
// same program without the library. Toolchains differ by less.
const mostGrowth = 0.08

// programs are what an importer begins with: one call of a package each.
var programs = []struct{ name, imports, call string }{
	{"nothing but fmt", "", `fmt.Println("wine")`},
	{"units", "units", `fmt.Println(units.ParseVolume(os.Args[0]))`},
	{"gravity", "gravity", `fmt.Println(gravity.Parse(os.Args[0]))`},
	{"abv.MassBalance", "abv", `fmt.Println(abv.MassBalance(1.092, 1.046, abv.Must))`},
	{"abv/watch.Follow", "abv/watch", `fmt.Println(watch.Follow(nil, watch.Setup{}))`},
	{"blend.Fortify", "blend", `fmt.Println(blend.Fortify(blend.Component{Volume: 3, Strength: 6}, blend.Component{Strength: 75}, 20))`},
	{"additions/stability.Judge", "additions/stability", `fmt.Println(stability.Judge(stability.Wine{Strength: 20}))`},
	{"blend/batch.Work", "blend/batch", `fmt.Println(batch.Demo().Work())`},
}

// platforms are those that the library is built for beside the one it is tested on.
var platforms = [][2]string{{"js", "wasm"}, {"linux", "arm"}}

// A size is what a program costs on a platform.
type size struct {
	linux, wasm     int64 // bytes, stripped
	packages, gonum int   // of other modules and this one; of gonum alone
}

// builds builds the library for other platforms, runs a program as WebAssembly where
// Node is at hand, and measures what a small program grows by when it imports a
// package; written to SIZES.md, or compared with it.
func builds(set *flag.FlagSet, args []string) error {
	check := set.Bool("check", false, "change nothing; fail where a program is much larger than in "+sizesFile)
	if err := set.Parse(args); err != nil {
		return err
	}
	for _, p := range platforms {
		if out, err := goFor(p, "build", "./units/...", "./gravity/...", "./abv/...", "./blend/...", "./additions/...", "./examples/..."); err != nil {
			return fmt.Errorf("build for %s/%s: %w\n%s", p[0], p[1], err, out)
		}
		fmt.Printf("builds: %s/%s builds\n", p[0], p[1])
	}
	if err := inNode(); err != nil {
		return err
	}
	sizes := make([]size, len(programs))
	for i, p := range programs {
		var err error
		if sizes[i], err = measured(p.imports, p.call); err != nil {
			return fmt.Errorf("builds: %s: %w", p.name, err)
		}
	}
	modules, err := output(root, "go", "list", "-m", "all")
	if err != nil {
		return fmt.Errorf("builds: %w\n%s", err, modules)
	}
	if *check {
		return grown(sizes)
	}
	return os.WriteFile(sizesFile, []byte(sizesTable(sizes, strings.Count(modules, "\n"))), 0o644)
}

// goFor runs the go command in the main module for a platform, without cgo.
func goFor(platform [2]string, args ...string) (string, error) {
	cmd := exec.Command("go", args...)
	cmd.Dir = root
	cmd.Env = append(os.Environ(), "GOOS="+platform[0], "GOARCH="+platform[1], "CGO_ENABLED=0")
	out, err := cmd.CombinedOutput()
	return strings.TrimSpace(string(out)), err
}

// program lays a main package into the main module, for the go command alone, and
// gives the arguments that make it see that.
func program(dir, imports, call string) (overlay, path string, err error) {
	source := "package main\n\nimport (\n\t\"fmt\"\n\t\"os\"\n)\n\nvar _ = os.Args\n\n"
	if imports != "" {
		source = strings.Replace(source, "\n)", fmt.Sprintf("\n\t%q\n)", module+"/"+imports), 1)
	}
	source += "func main() { " + call + " }\n"
	file, err := filepath.Abs(filepath.Join(root, "internal", "program", "main.go"))
	if err != nil {
		return "", "", err
	}
	text := filepath.Join(dir, "main.go.txt")
	replace, err := json.Marshal(map[string]map[string]string{"Replace": {file: text}})
	if err != nil {
		return "", "", err
	}
	overlay = filepath.Join(dir, "overlay.json")
	return overlay, "./internal/program", errors.Join(os.WriteFile(text, []byte(source), 0o644), os.WriteFile(overlay, replace, 0o644))
}

// measured builds a program that imports a package for Linux and for WebAssembly.
func measured(imports, call string) (s size, err error) {
	dir, err := os.MkdirTemp("", "builds")
	if err != nil {
		return s, err
	}
	defer os.RemoveAll(dir)
	overlay, path, err := program(dir, imports, call)
	if err != nil {
		return s, err
	}
	for _, to := range []struct {
		platform [2]string
		bytes    *int64
	}{{[2]string{"linux", "amd64"}, &s.linux}, {[2]string{"js", "wasm"}, &s.wasm}} {
		binary := filepath.Join(dir, "program")
		if out, err := goFor(to.platform, "build", "-overlay", overlay, "-trimpath", "-ldflags=-s -w", "-o", binary, path); err != nil {
			return s, fmt.Errorf("%w\n%s", err, out)
		}
		info, err := os.Stat(binary)
		if err != nil {
			return s, err
		}
		*to.bytes = info.Size()
	}
	deps, err := goFor([2]string{"linux", "amd64"}, "list", "-overlay", overlay, "-deps", "-f", "{{if not .Standard}}{{.ImportPath}}{{end}}", path)
	if err != nil {
		return s, fmt.Errorf("%w\n%s", err, deps)
	}
	s.packages = len(strings.Fields(deps)) - 1 // not itself
	s.gonum = strings.Count(deps, "gonum.org/v1/gonum")
	return s, nil
}

// inNode runs the demonstration batch as WebAssembly and natively: they say the same.
func inNode() error {
	node, err := exec.LookPath("node")
	if err != nil {
		fmt.Println("builds: no Node, the WebAssembly program was not run")
		return nil
	}
	dir, err := os.MkdirTemp("", "node")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	overlay, path, err := program(dir, "blend/batch", `p, err := batch.Demo().Work(); fmt.Println(err, p.Title); for _, a := range p.Answer { fmt.Println(a) }; for _, f := range p.Figures() { fmt.Println(f.Key, f.Fixed()) }`)
	if err != nil {
		return err
	}
	binary := filepath.Join(dir, "program.wasm")
	if out, err := goFor([2]string{"js", "wasm"}, "build", "-overlay", overlay, "-o", binary, path); err != nil {
		return fmt.Errorf("builds: %w\n%s", err, out)
	}
	goroot, err := output(root, "go", "env", "GOROOT")
	if err != nil {
		return err
	}
	there, err := output(root, node, filepath.Join(goroot, "lib", "wasm", "wasm_exec_node.js"), binary)
	if err != nil {
		return fmt.Errorf("builds: in Node: %w\n%s", err, there)
	}
	here, err := output(root, "go", "run", "-overlay", overlay, path)
	if err != nil {
		return fmt.Errorf("builds: %w\n%s", err, here)
	}
	if here != there || len(here) < 500 {
		return fmt.Errorf("builds: WebAssembly says otherwise than the native program:\n%s\nagainst\n%s", there, here)
	}
	fmt.Printf("builds: the demonstration batch says the same in Node, %d lines\n", strings.Count(there, "\n")+1)
	return nil
}

func sizesTable(sizes []size, modules int) string {
	var b strings.Builder
	b.WriteString("# What an importer's program grows by\n\nWritten by `go run . builds` in internal/tools: do not edit.\n\n" +
		"Bytes of a stripped program (`-trimpath -ldflags=\"-s -w\"`) that makes one call, beside one with fmt alone; packages outside the standard library, and of gonum among them.\n\n" +
		"| program | linux/amd64 | js/wasm | packages | of gonum |\n| --- | ---: | ---: | ---: | ---: |\n")
	for i, s := range sizes {
		fmt.Fprintf(&b, "| %s | %d | %d | %d | %d |\n", programs[i].name, s.linux, s.wasm, s.packages, s.gonum)
	}
	version, _ := output(root, "go", "env", "GOVERSION")
	fmt.Fprintf(&b, "\nAn importer's module graph has %d modules beside its own. Measured with %s.\n", modules, version)
	return b.String()
}

var sizesRow = regexp.MustCompile(`(?m)^\| (.+?) \| (\d+) \| (\d+) \| (\d+) \| (\d+) \|$`)

// grown compares what programs grow by with the committed table: bytes over those of
// the program with fmt alone, which the toolchain decides, and packages exactly.
func grown(sizes []size) error {
	text, err := os.ReadFile(sizesFile)
	if err != nil {
		return err
	}
	rows := sizesRow.FindAllStringSubmatch(string(text), -1)
	var names []string
	before := make([]size, len(rows))
	for i, r := range rows {
		names = append(names, r[1])
		number := func(s string) int64 { n, _ := strconv.ParseInt(s, 10, 64); return n }
		before[i] = size{number(r[2]), number(r[3]), int(number(r[4])), int(number(r[5]))}
	}
	var faults error
	for i, p := range programs {
		at := slices.Index(names, p.name)
		if at < 0 {
			faults = errors.Join(faults, fmt.Errorf("builds: %s is not in %s", p.name, sizesFile))
			continue
		}
		was, is := before[at], sizes[i]
		if was.packages != is.packages || was.gonum != is.gonum {
			faults = errors.Join(faults, fmt.Errorf("builds: %s needs %d packages outside the standard library, %d of gonum; committed are %d and %d", p.name, is.packages, is.gonum, was.packages, was.gonum))
		}
		for _, b := range []struct {
			on                 string
			is, was, base, old int64
		}{{"linux/amd64", is.linux, was.linux, sizes[0].linux, before[0].linux}, {"js/wasm", is.wasm, was.wasm, sizes[0].wasm, before[0].wasm}} {
			now, then := float64(b.is)/float64(b.base), float64(b.was)/float64(b.old)
			if now > then+mostGrowth {
				faults = errors.Join(faults, fmt.Errorf("builds: %s is %.2f times a program without the library on %s; committed is %.2f", p.name, now, b.on, then))
			}
		}
	}
	if faults != nil {
		return fmt.Errorf("%w\nwhere that is meant, run \"go run . builds\" in internal/tools and commit %s", faults, sizesFile)
	}
	fmt.Printf("builds: %d programs are as large as in %s\n", len(programs), sizesFile)
	return nil
}
