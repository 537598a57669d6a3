package main

import (
	"debug/elf"
	"debug/gosym"
	"encoding/binary"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
)

var arm64Once struct {
	sync.Once
	bin string
	err error
}

// arm64Program builds the program for arm64 once for all tests.
func arm64Program(t *testing.T) string {
	t.Helper()
	arm64Once.Do(func() {
		dir, err := os.MkdirTemp("", "weekband-arm64-")
		if err != nil {
			t.Fatal(err)
		}
		arm64Once.bin = filepath.Join(dir, "weekband")
		cmd := exec.Command("go", "build", "-ldflags=-w", "-o", arm64Once.bin, ".")
		cmd.Env = append(os.Environ(), "GOOS=linux", "GOARCH=arm64", "CGO_ENABLED=0")
		if text, err := cmd.CombinedOutput(); err != nil {
			arm64Once.err = fmt.Errorf("%w\n%s", err, text)
		}
	})
	if arm64Once.err != nil {
		t.Fatal(arm64Once.err)
	}
	return arm64Once.bin
}

// No package of weekband multiplies and adds in one step. The language lets a
// compiler round x*y + z once instead of twice, which the one for arm64 does
// and the one for amd64 does not, unless a conversion rounds the product:
// float64(x*y) + z (The Go Programming Language Specification, "Floating-point
// operators"). So results would hang on the machine. A product of a power of
// two is exact either way.
func TestNoProductIsFused(t *testing.T) {
	unraced(t)
	fused := fusedSteps(t, arm64Program(t))
	root, err := filepath.Abs(filepath.Join("..", ".."))
	if err != nil {
		t.Fatal(err)
	}
	if len(fused) == 0 {
		t.Fatal("not one fused step, not even in the libraries; the test reads the program wrongly")
	}
	for _, at := range fused {
		if name, ours := strings.CutPrefix(at, root+string(filepath.Separator)); ours {
			t.Errorf("%s: a product and a sum are one step on arm64; round the product by a conversion, such as float64(x*y) + z", name)
		}
	}
}

// fusedSteps returns the places, as file:line, of instructions of an arm64
// program that multiply and add in one step, but for those that multiply with
// a power of two.
func fusedSteps(t *testing.T, bin string) []string {
	t.Helper()
	f, err := elf.Open(bin)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	section := func(name string) []byte {
		data, err := f.Section(name).Data()
		if err != nil {
			t.Fatalf("%s of %s: %v", name, bin, err)
		}
		return data
	}
	code, start := section(".text"), f.Section(".text").Addr
	table, err := gosym.NewTable(nil, gosym.NewLineTable(section(".gopclntab"), start))
	if err != nil {
		t.Fatal(err)
	}
	var found []string
	for _, fn := range table.Funcs {
		body := code[fn.Entry-start : fn.End-start]
		for at := 0; at+4 <= len(body); at += 4 {
			if fuses(body, at) {
				file, line, _ := table.PCToLine(fn.Entry + uint64(at))
				found = append(found, fmt.Sprintf("%s:%d", file, line))
			}
		}
	}
	slices.Sort(found)
	return slices.Compact(found)
}

// Instructions of arm64, from the Arm Architecture Reference Manual for
// A-profile, C4.1 "A64 instruction set encoding", under "Data Processing --
// Scalar Floating-Point": 3 sources; and an immediate, imm8 in bits 13 to 20
// whose lowest four are the fraction.
const (
	threeSources = 0x1f000000 // in the top byte: FMADD, FMSUB, FNMADD, FNMSUB
	immediate    = 0x1e201000 // but for bit 22, which tells double from single
	fraction     = 0xf << 13
)

// fuses reports whether the instruction at a place of a function rounds once
// what the source rounds twice.
func fuses(body []byte, at int) bool {
	word := binary.LittleEndian.Uint32(body[at:])
	if word&0xff000000 != threeSources {
		return false
	}
	return !powerOfTwo(body, at, word>>5&31) && !powerOfTwo(body, at, word>>16&31)
}

// powerOfTwo reports whether the last instruction before a place that sets a
// register sets it to a power of two.
func powerOfTwo(body []byte, at int, register uint32) bool {
	for at -= 4; at >= 0; at -= 4 {
		word := binary.LittleEndian.Uint32(body[at:])
		top := word >> 24
		if word&31 != register || top != 0x1e && top != 0x1f && top != 0xfd && top != 0xfc && top != 0xbd {
			continue
		}
		if word&0xffa01fe0 == immediate {
			return word&fraction == 0
		}
		if word&0xff20fc00 != 0x1e202000 { // a comparison sets none
			return false
		}
	}
	return false
}
