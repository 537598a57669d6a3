package plane

// Pixel is a place on a page or an image, X to the right and Y down from its
// top left corner.
type Pixel struct{ X, Y float64 }
