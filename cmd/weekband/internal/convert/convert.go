// Package convert hands files that weekband cannot read itself to
// general-purpose command line tools, when these are installed.
//
// It takes the path of a raster or of a file of polygons and gives the path of
// a converted copy in a temporary folder. It never writes beside the input,
// fetches nothing, and never knows what the file is for.
package convert

import (
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"

	"weekband/cmd/weekband/internal/scratch"
)

// Converter holds the converted copies until it is closed. The zero value is
// ready.
type Converter struct {
	dir      *scratch.Dir // nil before the first copy
	copies   []string     // of which file each copy is, in turn: copy, original
	versions map[string]string
}

// Close removes the copies.
func (c *Converter) Close() error {
	if c.dir == nil {
		return nil
	}
	return c.dir.Close()
}

// Original returns text with the user's own file in place of every copy it
// names.
func (c *Converter) Original(text string) string {
	return strings.NewReplacer(c.copies...).Replace(text)
}

// Restore returns err with the user's own files in its words, nil for nil.
func (c *Converter) Restore(err error) error {
	if err == nil || c.Original(err.Error()) == err.Error() {
		return err
	}
	return &restored{err, c.Original(err.Error())}
}

// restored is an error in other words.
type restored struct {
	error
	words string
}

func (e *restored) Error() string { return e.words }
func (e *restored) Unwrap() error { return e.error }

// job is one conversion.
type job struct {
	tool, what, pkg string
	ending          string // of the copy's name
	args            func(in, out string) []string
}

// environment keeps the tools of GDAL and PROJ from what the user did not ask
// for: notes beside the input, references to other files and servers, grids
// from a server, and temperatures of GRIB turned from kelvins to °C, which
// would shift deviations too.
var environment = []string{
	"GDAL_PAM_ENABLED=NO", "GDAL_SKIP=VRT HTTP WMS WCS WMTS", "PROJ_NETWORK=OFF", "GRIB_NORMALIZE_UNITS=NO",
	"GDAL_HTTP_PROXY=127.0.0.1:9", "GDAL_HTTPS_PROXY=127.0.0.1:9", // the port that discards (RFC 863)
}

// run runs a tool on a file and returns the copy and how it came about. The
// file may be a copy itself.
func (c *Converter) run(ctx context.Context, path string, j job) (copied, how string, err error) {
	in, err := local(path)
	if err != nil {
		return "", "", err
	}
	name := strings.TrimSuffix(filepath.Base(path), filepath.Ext(path)) + j.ending
	byHand := commandLine(j.tool, j.args(path, name))
	if !installed(j.tool) {
		return "", "", fmt.Errorf("%s: the tool %s would convert it but is not installed: install the package %s (Debian's name), or convert the file elsewhere and name the result; by hand: %s",
			path, j.tool, j.pkg, byHand)
	}
	out, err := c.place(name)
	if err != nil {
		return "", "", err
	}
	cmd := exec.CommandContext(ctx, j.tool, j.args(in, out)...)
	cmd.Env = append(os.Environ(), environment...)
	text, err := cmd.CombinedOutput()
	said := strings.NewReplacer(out, name, in, filepath.Base(path)).Replace(string(text))
	if err != nil {
		if ctx.Err() != nil {
			return "", "", ctx.Err()
		}
		return "", "", fmt.Errorf("%s: %s could not convert it: %s; by hand: %s", path, j.tool, brief(said, err), byHand)
	}
	c.copies = append(c.copies, out, c.Original(path))
	how = fmt.Sprintf("%s by %s", j.what, c.version(j.tool))
	if strings.TrimSpace(said) != "" {
		how += ", which said: " + brief(said, nil)
	}
	return out, how, nil
}

// local returns the absolute path of a plain file; names that tools would
// take for something else are refused.
func local(path string) (string, error) {
	if strings.HasPrefix(path, "/vsi") || strings.Contains(path, "://") {
		return "", fmt.Errorf("%s: want a plain file", path)
	}
	info, err := os.Stat(path)
	if err != nil {
		return "", err
	}
	if !info.Mode().IsRegular() {
		return "", fmt.Errorf("%s: not a regular file", path)
	}
	return filepath.Abs(path)
}

// place returns where the next copy goes: in a folder of its own, so that it
// keeps its name.
func (c *Converter) place(name string) (string, error) {
	if c.dir == nil {
		dir, err := scratch.New("convert")
		if err != nil {
			return "", err
		}
		c.dir = dir
	}
	for i := len(c.copies) / 2; ; i++ { // a tool that failed has left its folder
		dir := filepath.Join(c.dir.Path(), strconv.Itoa(i+1))
		if err := os.Mkdir(dir, 0o700); !errors.Is(err, os.ErrExist) {
			return filepath.Join(dir, name), err
		}
	}
}

func installed(tool string) bool {
	_, err := exec.LookPath(tool)
	return err == nil
}

// commandLine returns a command as one would type it, without what only keeps
// it quiet and narrow.
func commandLine(tool string, args []string) string {
	words := []string{tool}
	for i := 0; i < len(args); i++ {
		switch {
		case args[i] == "-q":
		case args[i] == "-if":
			i++
		case strings.ContainsAny(args[i], " \t\"'$&;()*?<>|\\`"):
			words = append(words, "'"+strings.ReplaceAll(args[i], "'", `'\''`)+"'")
		default:
			words = append(words, args[i])
		}
	}
	return strings.Join(words, " ")
}

// brief returns what a tool said, in a line; when that is nothing, how it
// ended.
func brief(text string, err error) string {
	const most = 300
	words := strings.Join(strings.Fields(text), " ")
	if words == "" && err != nil {
		return err.Error()
	}
	if len(words) > most {
		words = strings.ToValidUTF8(words[:most], "") + " …"
	}
	return words
}

// version returns a tool's name with its version where it tells one.
func (c *Converter) version(tool string) string {
	if known, ok := c.versions[tool]; ok {
		return known
	}
	if c.versions == nil {
		c.versions = map[string]string{}
	}
	c.versions[tool] = versionOf(tool)
	return c.versions[tool]
}

// versionOf asks a tool. nccopy has no option for it; its help ends with
// "netCDF library version 4.9.0 of …".
func versionOf(tool string) string {
	text, _ := exec.Command(tool, "--version").CombinedOutput() // exit code 1 with the help
	for line := range strings.Lines(string(text)) {
		line = strings.TrimSpace(line)
		if rest, ok := strings.CutPrefix(line, "netCDF library version "); ok {
			number, _, _ := strings.Cut(rest, " ")
			return fmt.Sprintf("%s (netCDF library %s)", tool, number)
		}
		if strings.HasPrefix(line, "GDAL ") {
			return fmt.Sprintf("%s (%s)", tool, line)
		}
	}
	return tool
}
