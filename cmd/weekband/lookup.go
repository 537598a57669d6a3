package main

import (
	"weekband/cmd/weekband/internal/answer"
)

type lookupCmd struct {
	Out   string `arg:"" name:"edition" help:"Folder of a built edition." complete:"folders"`
	Place string `arg:"" help:"Name or code of a place, name of a region, or a position, latitude and longitude, such as 38.2,-45.1." complete:"places"`
	JSON  bool   `help:"Answer as JSON."`

	Reading []string `help:"What your own soil thermometer showed this season, a date and a temperature; such as 2027-03-25=45F; may be given several times." placeholder:"DAY=TEMPERATURE" sep:"none" complete:"nothing" group:"What is known of this year"`
}

// Run answers for one place.
func (c lookupCmd) Run(s *streams) error {
	var readings []answer.Reading
	for _, text := range c.Reading {
		r, err := answer.ParseReading(text)
		if err != nil {
			return err
		}
		readings = append(readings, r)
	}
	reply, err := answer.For(standing(c.Out, s), c.Place, readings)
	if err != nil {
		return err
	}
	if c.JSON {
		return s.answerJSON(reply)
	}
	return reply.Write(s.out)
}
