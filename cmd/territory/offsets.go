package main

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"io"

	"weekband/grid/calibration"
	"weekband/grid/series"
)

// The names of the network's two files and the remarks on the table learned
// from them: those of
//
//	weekband calibrate soil-stations.csv soil-daily.csv.gz --source "…"
const (
	sitesName  = "soil-stations.csv"
	valuesName = "soil-daily.csv.gz"
	madeBy     = "Offsets of soil at 10 cm above lagged air, in kelvins; made by: weekband calibrate " + sitesName + " " + valuesName
)

// writeOffsets writes the table that the command calibrate learns from the
// network's files.
func writeOffsets(w io.Writer, sites, values []byte) error {
	learned, err := learn(sites, values)
	if err != nil {
		return err
	}
	return calibration.Encode(w, calibration.Table(learned), madeBy, "Source: "+credit)
}

// learn reads the network's files as the command calibrate does. Every station
// passes the check.
func learn(sites, values []byte) ([]calibration.Truth, error) {
	zip, err := gzip.NewReader(bytes.NewReader(values))
	if err != nil {
		return nil, err
	}
	n, err := series.Decode(series.Text{Reader: bytes.NewReader(sites), Name: sitesName}, series.Text{Reader: zip, Name: valuesName})
	if err != nil {
		return nil, err
	}
	learned, skipped, err := calibration.Learn(n, n.Clean(series.Rules{}))
	if err != nil {
		return nil, err
	}
	if len(skipped) > 0 {
		return nil, fmt.Errorf("stations left out: %q; change the weather or the gaps so that all pass the check", skipped)
	}
	return learned, nil
}
