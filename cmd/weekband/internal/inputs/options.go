package inputs

import (
	"weekband/cmd/weekband/internal/recipe"
	"weekband/grid/soil"
	"weekband/grid/weeks"
)

// ComputeOptions returns how cells are worked out from inputs: the soil that the
// recipe asks for at its depth, or air as it is, with the offsets, deviations and
// errors that are known.
func ComputeOptions(r *recipe.Recipe, in *Set) weeks.Options {
	opts := weeks.Options{Soil: &soil.Default}
	opts.SD, opts.SE, opts.Offsets = in.SD, in.SE, in.Offsets
	if r.Normals.Measures == recipe.SoilTemp || r.Soil.None {
		opts.Soil = &soil.Air
		return opts
	}
	opts.Depth = soil.NewConduction(soil.OffsetDepth, r.Soil.Depth, soil.DefaultDiffusivity)
	return opts
}
