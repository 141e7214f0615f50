// Package refraction gives refractive indices at 20 C and the sodium D line:
// of sucrose in water, of ethanol in water, and of the two together with the
// other solutes of wine. Mass fractions are 0 to 1, masses any one unit with
// volumes in that unit per kg/m3.
//
// Behind all of it stands one quantity, the specific refraction
//
//	r = (n^2 - 1) / (n^2 + 2) / rho    (Lorentz-Lorenz)
//
// which is nearly additive in mass: the index of a mixture follows from the sum
// of its refractions over its volume. What is not additive is measured on each
// solute alone in water and taken over the water they share, as the excess
// volume is in package density.
//
// Functions compute; they do not check. Nothing allocates.
package refraction
