package main

// The names belong to no place on earth that a reader would know: a made-up
// county English with a few accents.

// regionName is a region's name, code and seat.
type regionName struct {
	code, name string
	seat       plan
}

// theRegions in the order of their numbers. The codes are our own.
var theRegions = []regionName{
	{"SKW", "Skarrow", plan{2.0, 8.2}},
	{"ELK", "Ellenmark", plan{4.6, 8.4}},
	{"BTY", "Brethany", plan{7.0, 8.4}},
	{"ESY", "Eastrey", plan{8.6, 7.6}},
	{"HVT", "High Vennet", plan{7.0, 7.3}},
	{"TVD", "Taveland", plan{1.8, 6.5}},
	{"ORD", "Orrendale", plan{3.4, 5.8}},
	{"SWV", "Sellow Vale", plan{5.0, 5.6}},
	{"USW", "Upper Sellow", plan{6.2, 6.0}},
	{"WDW", "Wendrow", plan{8.6, 5.6}},
	{"QND", "Quenland", plan{3.0, 4.0}},
	{"DSH", "Downshore", plan{3.6, 3.0}},
	{"OSK", "Ossermark", plan{5.2, 4.3}},
	{"LDY", "Lindrey", plan{6.8, 4.2}},
	{"SNW", "Sarnaway", plan{6.0, 2.4}},
	{"SLN", "Sôlenne", plan{7.2, 1.2}},
	{"GNY", "The Gannays", plan{1.4, 2.0}},
	{"PLY", "The Pellarays", plan{9.5, 2.6}},
}

// placeNames lists the names for each kind of site, the best site first.
var placeNames = map[kind][]string{
	mouth: {
		"Sellowmouth", "Orramouth", "Fallowhaven", "Quennamouth", "Esselmouth", "Ilvemouth", "Kellowhaven", "Ellamouth",
		"Corrahaven", "Ettamouth", "Yarrelhaven", "Lunnamouth", "Dravemouth", "Vellahaven",
	},
	confluence: {
		"Merrowmeet", "Aldrameet", "Twinnwater", "Linnesmeet", "Ombremeet", "Forkenmere", "Thessameet", "Vellamere",
	},
	river: {
		"Quillaford", "Ombreford", "Olverbridge", "Tessaford", "Estelmere", "Lindraford", "Wythamere", "Sorrelbridge",
		"Vennaford", "Hollinmere", "Brëaford", "Pennowbridge", "Ullaford", "Osmerley", "Larkamere", "Withenbridge",
		"Dravenford", "Nettlemere", "Quorrbridge", "Tarnaford",
	},
	harbour: {
		"Sandrewick", "Gullhythe", "Aldwenport", "Hérnwick", "Varrowhythe", "Orsewick", "Pellhythe", "Cressawick",
		"Ravelhythe", "Tholewick", "Brinewick", "Saltamere", "Marrowick", "Wrackstead", "Vessany", "Dunnoway",
		"Tealstrand", "Sôlwick",
	},
	island: {
		"Ellisay", "Tormunday", "Orlaywick", "Pellaray Haven", "Sulwick", "Hethay", "Gannaywick", "Fennay", "Marsay",
		"Skennay", "Great Hythe", "Kittay", "Lowen Strand", "Ternholm",
	},
	upland: {
		"Vennetgate", "Harragap", "Skelderholt", "Thornaholt", "Wintersgap", "Stannerfell", "Ullgap", "Corraholt",
		"Highmarrow", "Kestergap", "Tôrnholt", "Wolderfell", "Coldamere", "Lastholt", "Greyfellstead", "Brackaholt",
		"Sarnholt", "Aldrafell", "Vannholt", "Farholt",
	},
	country: {
		"Ashrowley", "Fennimere", "Bellowmere", "Thessaley", "Amberholt", "Oldcressing", "Wenlaby", "Marrowby",
		"Peltham Cross", "Sunderholt", "Hathelby", "Orchardine", "Quenby Cross", "Lavendrey", "Mellowick", "Tansyholt",
		"Rushamere", "Ostelby", "Applewray", "Vinnesley", "Carrowby", "Elderwray", "Havelby", "Dalliswick",
	},
}
