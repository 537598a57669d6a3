package main

import (
	"os"
	"reflect"
	"regexp"
	"strings"
	"testing"
)

// README.md shows every command, and no other; flags it shows are theirs.
func TestReadmeShowsTheCommands(t *testing.T) {
	text, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	shown := map[string]bool{}
	for _, m := range regexp.MustCompile(`go run \./cmd/weekband (\S+)([^\n`+"`"+`]*)`).FindAllStringSubmatch(string(text), -1) {
		name := strings.Trim(m[1], "`")
		shown[name] = true
		_, help, _ := weekband(t, name, "--help")
		for _, flag := range regexp.MustCompile(`--[a-z-]+`).FindAllString(m[2], -1) {
			if !strings.Contains(help, flag) {
				t.Errorf("README.md shows %s %s, which is no flag of it", name, flag)
			}
		}
	}
	for i := range reflect.TypeFor[commands]().NumField() {
		field := reflect.TypeFor[commands]().Field(i)
		_, command := field.Tag.Lookup("cmd")
		if _, hidden := field.Tag.Lookup("hidden"); !command || hidden {
			continue // a flag of all commands, or what only programs call
		}
		name := strings.ToLower(field.Name)
		if !shown[name] {
			t.Errorf("README.md does not show the command %s", name)
		}
		delete(shown, name)
	}
	for name := range shown {
		t.Errorf("README.md shows the command %s, which is none", name)
	}
}
