package main

import "weekband/render/lookup"

func drawVerdict(string, *lookup.Edition, *verdict) error { return nil }
