// Package blend answers what a blend will be, and what to pour to get the one
// that is wanted.
//
//	base := blend.Component{Name: "cherry", Volume: 1, Strength: 6.1, Extract: 142}
//	spirit := blend.Component{Name: "spirit", Strength: 75}
//	f, err := blend.Fortify(base, spirit, 20) // 0.249 L of it: 1.240 L at 20 % vol, 114 g/L
//
// Mix conserves the mass of ethanol, extract, acid and water; the volume at
// 20 C follows from the three-component density, so strength is what the
// liquid has, not what adding volumes gives. Additive is the hand check on
// paper, in exact decimals, for comparison.
//
// A wish that cannot be met is an *UnreachableError: what is reachable, the
// nearest blend, what binds, and which single change would do.
//
// Nothing here says anything about pH: that needs the buffer model of package
// additions. Spirit vapour burns: blend away from flames and sparks.
package blend

// WarmBlend is the note that belongs to every fresh blend: mixing spirit with
// wine or water gives off heat, and a warm liquid reads low.
const WarmBlend = "A freshly mixed blend is warm, so the hydrometer reads low: let it come to cellar temperature first."
