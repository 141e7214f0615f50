// Package density gives the densities that every figure of the library rests
// on, in float64, kg/m3, degrees Celsius and mass fractions (0 to 1):
//
//   - ethanol and water: OIML R 22 (1975), -20 to 40 C
//   - sucrose and water: ICUMSA (1990), 0 to 100 C, to 0.70
//   - the three together: excess volumes added over the shared water, which is
//     exactly the first without sucrose and exactly the second without ethanol
//
// Functions compute; they do not check. Callers check against the domain
// constants here and name the quantity as their user knows it. Nothing
// allocates.
package density
