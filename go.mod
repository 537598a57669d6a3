module weekband

go 1.26.0

ignore ./out
