// Package surface makes a grid of monthly normals from stations.
//
// It takes two CSV files, sites and values, and a terrain, and gives a Surface
// that hands out rows of twelve months like an open file of normals, and a
// Report of how well every station is predicted from the others. It never
// knows soil, weeks, or where its rows go.
//
// How: universal kriging in local neighbourhoods. The drift is a plane in east
// and north, free at every place, and three slopes: height, rise above the
// valley floor (the lowest ground within 7 km, as a logarithm: cold air lies
// low) and distance to the sea (as a logarithm). The slopes are fitted to
// differences between neighbours of the whole network first, and may depart
// from that in a neighbourhood by about 1 K per unit. The covariance is
// exponential with a nugget, on a distance in which heights count too, fitted
// by restricted maximum likelihood; every month has its own sill, and a
// neighbourhood with larger errors a larger one. The nugget stands for site
// and instrument: estimates are of the ground around, not exact at stations,
// and standard errors are those of a new thermometer there.
//
// Months share the weights. Over a grid, systems are solved at the nodes of a
// lattice and cells blend the four nodes around them, so that neighbourhoods
// meet without seams.
//
// Measured on 5,742 stations of the contiguous United States, monthly normals
// 1981–2010, each predicted from the others: mean absolute error 0.524 K, bias
// −0.005 K; 0.50 K in November to 0.57 K in January, 0.44 K between 200 and
// 500 m, 0.84 K above 2,000 m; 72 % of the errors lie within one standard
// error and 95 % within two. Kriging with position and height alone has
// 0.55 K, inverse distance 0.68 K. Blending on the 4 km terrain differs from
// solving every cell by 0.004 K on average, 0.17 K at most, in a few cells of
// steep ground.
package surface
