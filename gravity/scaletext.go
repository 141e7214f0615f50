package gravity

// ParsePlato reads text such as "17.1 P", "17,1 °P", "17.1 Bx". Domain -5 to 70. Errors:
// *units.ParseError for text, *units.RangeError outside.
func ParsePlato(text string) (Plato, error) { return parseOn[Plato](plato, text) }

// String prints six significant digits; ParsePlato reads it.
func (p Plato) String() string { return plato.format(float64(p)) }

// MarshalText prints all digits. Error: *units.RangeError for what is not finite.
func (p Plato) MarshalText() ([]byte, error) { return plato.marshal(float64(p)) }

// UnmarshalText reads what MarshalText wrote, whatever its range, and what ParsePlato reads.
func (p *Plato) UnmarshalText(text []byte) error { return unmarshalOn(p, plato, text) }

// Set is ParsePlato, for flags. On an error p keeps its value.
func (p *Plato) Set(text string) error { return setOn(p, plato, text) }

// ParseBrix reads text such as "7.2 Bx", "7,2 °Brix", "7.2 P". Domain -5 to 75. Errors:
// *units.ParseError for text, *units.RangeError outside.
func ParseBrix(text string) (Brix, error) { return parseOn[Brix](brix, text) }

// String prints six significant digits; ParseBrix reads it.
func (b Brix) String() string { return brix.format(float64(b)) }

// MarshalText prints all digits. Error: *units.RangeError for what is not finite.
func (b Brix) MarshalText() ([]byte, error) { return brix.marshal(float64(b)) }

// UnmarshalText reads what MarshalText wrote, whatever its range, and what ParseBrix reads.
func (b *Brix) UnmarshalText(text []byte) error { return unmarshalOn(b, brix, text) }

// Set is ParseBrix, for flags. On an error b keeps its value.
func (b *Brix) Set(text string) error { return setOn(b, brix, text) }

// ParseOechsle reads text such as "92 Oe", "92 °Oe". Domain 0 to 349.9. Errors:
// *units.ParseError for text, *units.RangeError outside.
func ParseOechsle(text string) (Oechsle, error) { return parseOn[Oechsle](oechsle, text) }

// String prints six significant digits; ParseOechsle reads it.
func (o Oechsle) String() string { return oechsle.format(float64(o)) }

// MarshalText prints all digits. Error: *units.RangeError for what is not finite.
func (o Oechsle) MarshalText() ([]byte, error) { return oechsle.marshal(float64(o)) }

// UnmarshalText reads what MarshalText wrote, whatever its range, and what ParseOechsle reads.
func (o *Oechsle) UnmarshalText(text []byte) error { return unmarshalOn(o, oechsle, text) }

// Set is ParseOechsle, for flags. On an error o keeps its value.
func (o *Oechsle) Set(text string) error { return setOn(o, oechsle, text) }

// ParsePoints reads text such as "46 points". Domain -18.96 to 349.9. Errors:
// *units.ParseError for text, *units.RangeError outside.
func ParsePoints(text string) (Points, error) { return parseOn[Points](points, text) }

// String prints six significant digits; ParsePoints reads it.
func (p Points) String() string { return points.format(float64(p)) }

// MarshalText prints all digits. Error: *units.RangeError for what is not finite.
func (p Points) MarshalText() ([]byte, error) { return points.marshal(float64(p)) }

// UnmarshalText reads what MarshalText wrote, whatever its range, and what ParsePoints reads.
func (p *Points) UnmarshalText(text []byte) error { return unmarshalOn(p, points, text) }

// Set is ParsePoints, for flags. On an error p keeps its value.
func (p *Points) Set(text string) error { return setOn(p, points, text) }

// ParseBaume reads text such as "9.5 Be", "9,5 °Bé". Domain 0 to 37.58. Errors:
// *units.ParseError for text, *units.RangeError outside.
func ParseBaume(text string) (Baume, error) { return parseOn[Baume](baume, text) }

// String prints six significant digits; ParseBaume reads it.
func (b Baume) String() string { return baume.format(float64(b)) }

// MarshalText prints all digits. Error: *units.RangeError for what is not finite.
func (b Baume) MarshalText() ([]byte, error) { return baume.marshal(float64(b)) }

// UnmarshalText reads what MarshalText wrote, whatever its range, and what ParseBaume reads.
func (b *Baume) UnmarshalText(text []byte) error { return unmarshalOn(b, baume, text) }

// Set is ParseBaume, for flags. On an error b keeps its value.
func (b *Baume) Set(text string) error { return setOn(b, baume, text) }

// ParseBaume1443 reads text such as "9.5 Be 144.3" and, since that is what is asked for, "9.5 Be". Domain 0 to 37.40. Errors:
// *units.ParseError for text, *units.RangeError outside.
func ParseBaume1443(text string) (Baume1443, error) { return parseOn[Baume1443](baume1443, text) }

// String prints six significant digits; ParseBaume1443 reads it.
func (b Baume1443) String() string { return baume1443.format(float64(b)) }

// MarshalText prints all digits. Error: *units.RangeError for what is not finite.
func (b Baume1443) MarshalText() ([]byte, error) { return baume1443.marshal(float64(b)) }

// UnmarshalText reads what MarshalText wrote, whatever its range, and what ParseBaume1443 reads.
func (b *Baume1443) UnmarshalText(text []byte) error { return unmarshalOn(b, baume1443, text) }

// Set is ParseBaume1443, for flags. On an error b keeps its value.
func (b *Baume1443) Set(text string) error { return setOn(b, baume1443, text) }
