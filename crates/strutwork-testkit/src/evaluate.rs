//! Arithmetic as pages print it, worked out from the printed digits alone, as a reader with a pocket calculator does.

/// A range that a result lies in, as the numbers put in are rounded.
pub type Range = [f64; 2];

/// What a number can be that is printed with six significant digits.
pub fn printed(value: f64) -> Range {
    if value == 0.0 {
        return [-0.5e-12, 0.5e-12];
    }
    let after = (5.0 - value.abs().log10().floor()).clamp(0.0, 12.0);
    // A hair over half a digit, for the rounding of the arithmetic itself.
    let half = 0.500_001 * 10.0_f64.powf(-after) + 1e-12 * value.abs();
    [value - half, value + half]
}

/// The value of an arithmetic expression as pages print it.
///
/// # Errors
/// What cannot be read.
pub fn evaluate(text: &str) -> Result<Range, String> {
    let mut reader = Reader { text, at: 0 };
    let value = reader.sum()?;
    if reader.peek().is_some() {
        return Err(format!("`{}` is left over", &text[reader.at..]));
    }
    Ok(value)
}

struct Reader<'t> {
    text: &'t str,
    at: usize,
}

impl Reader<'_> {
    /// The next sign that is no blank.
    fn peek(&mut self) -> Option<char> {
        let rest = &self.text[self.at..];
        self.at += rest.len() - rest.trim_start().len();
        self.text[self.at..].chars().next()
    }

    fn takes(&mut self, sign: char) -> bool {
        let found = self.peek() == Some(sign);
        if found {
            self.at += sign.len_utf8();
        }
        found
    }

    fn expect(&mut self, sign: char) -> Result<(), String> {
        if self.takes(sign) { Ok(()) } else { Err(format!("`{sign}` expected before `{}`", &self.text[self.at..])) }
    }

    fn sum(&mut self) -> Result<Range, String> {
        let negative = self.takes('−') || self.takes('-');
        let first = self.product()?;
        let mut total = if negative { [-first[1], -first[0]] } else { first };
        loop {
            if self.takes('+') {
                let next = self.product()?;
                total = [total[0] + next[0], total[1] + next[1]];
            } else if self.takes('−') {
                let next = self.product()?;
                total = [total[0] - next[1], total[1] - next[0]];
            } else {
                return Ok(total);
            }
        }
    }

    fn product(&mut self) -> Result<Range, String> {
        let mut total = self.power()?;
        loop {
            if self.takes('·') {
                total = times(total, self.power()?);
            } else if self.takes('/') {
                let by = self.power()?;
                let over = if by[0] <= 0.0 && by[1] >= 0.0 {
                    [f64::NEG_INFINITY, f64::INFINITY]
                } else {
                    [1.0 / by[1], 1.0 / by[0]]
                };
                total = times(total, over);
            } else {
                return Ok(total);
            }
        }
    }

    fn power(&mut self) -> Result<Range, String> {
        let mut base = self.atom()?;
        loop {
            if self.takes('²') {
                let least = if base[0] <= 0.0 && base[1] >= 0.0 { 0.0 } else { base[0].abs().min(base[1].abs()) };
                base = [least.powi(2), base[0].abs().max(base[1].abs()).powi(2)];
            } else if self.takes('³') {
                base = [base[0].powi(3), base[1].powi(3)];
            } else if self.takes('^') {
                let exponent = self.power()?;
                base = hull(base.iter().flat_map(|b| exponent.map(|e| b.max(0.0).powf(e))));
            } else {
                return Ok(base);
            }
        }
    }

    fn atom(&mut self) -> Result<Range, String> {
        match self.peek() {
            Some('(') => self.bracket(),
            Some('√') => {
                self.expect('√')?;
                Ok(self.atom()?.map(|v| v.max(0.0).sqrt()))
            }
            Some('|') => {
                self.expect('|')?;
                let inside = self.sum()?;
                self.expect('|')?;
                let across = inside[0] <= 0.0 && inside[1] >= 0.0;
                let sizes = inside.map(f64::abs);
                Ok([if across { 0.0 } else { sizes[0].min(sizes[1]) }, sizes[0].max(sizes[1])])
            }
            Some(sign) if sign.is_ascii_digit() || sign == '-' => self.number(),
            Some(_) => self.named(),
            None => Err("something is missing at the end".to_owned()),
        }
    }

    fn bracket(&mut self) -> Result<Range, String> {
        self.expect('(')?;
        let inside = self.sum()?;
        self.expect(')')?;
        Ok(inside)
    }

    fn number(&mut self) -> Result<Range, String> {
        let rest = &self.text[self.at..];
        let end = rest
            .char_indices()
            .find(|&(at, sign)| !(sign.is_ascii_digit() || sign == '.' || (at == 0 && sign == '-')))
            .map_or(rest.len(), |(at, _)| at);
        self.at += end;
        rest[..end].parse().map(printed).map_err(|why| format!("`{}`: {why}", &rest[..end]))
    }

    /// `π`, `min(a, b)`, `max(a, b, c)`, and functions of an angle in degrees.
    fn named(&mut self) -> Result<Range, String> {
        let rest = &self.text[self.at..];
        let end = rest.find(|sign: char| !sign.is_alphabetic()).unwrap_or(rest.len());
        let name = &rest[..end];
        self.at += end;
        match name {
            "π" => Ok([std::f64::consts::PI; 2]),
            "inf" => Ok([f64::INFINITY; 2]),
            "min" | "max" => {
                let choose = if name == "min" { f64::min } else { f64::max };
                self.expect('(')?;
                let mut chosen = self.sum()?;
                while self.takes(',') {
                    let next = self.sum()?;
                    chosen = [choose(chosen[0], next[0]), choose(chosen[1], next[1])];
                }
                self.expect(')')?;
                Ok(chosen)
            }
            // Between 0 and 90 degrees each of them goes one way.
            "sin" => Ok(hull(self.bracket()?.map(|v| v.to_radians().sin()))),
            "cos" => Ok(hull(self.bracket()?.map(|v| v.to_radians().cos()))),
            "tan" => Ok(hull(self.bracket()?.map(|v| v.to_radians().tan()))),
            _ => Err(format!("`{}` stands for no number", &rest[..end.max(rest.len().min(12))])),
        }
    }
}

fn times(a: Range, b: Range) -> Range {
    // Nothing times anything is nothing.
    let one = |x: f64, y: f64| if x == 0.0 || y == 0.0 { 0.0 } else { x * y };
    hull([one(a[0], b[0]), one(a[0], b[1]), one(a[1], b[0]), one(a[1], b[1])])
}

fn hull(values: impl IntoIterator<Item = f64>) -> Range {
    values.into_iter().fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], v| [low.min(v), high.max(v)])
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(text: &str, expected: f64) {
        let [low, high] = evaluate(text).unwrap_or_else(|why| panic!("{text}: {why}"));
        assert!(low <= expected && expected <= high && high - low < 1e-4 * expected.abs(), "{text}: {low} to {high}");
    }

    #[test]
    fn expressions_are_worked_out() {
        close("1 / (0.75 + √(0.75² − 0.5²))", 1.0 / (0.75 + (0.75_f64 * 0.75 - 0.25).sqrt()));
        close("2 + 3 · 4 − 6 / 3 / 2", 13.0);
        close("max(2, min(5, 3)) · (-4)²", 48.0);
        close("|3 − 8| + 2³", 13.0);
        close("2.5^1.66 · π", 2.5_f64.powf(1.66) * std::f64::consts::PI);
        close("−2 + 8 · sin(30)", 2.0);
        assert!(evaluate("2 · x").is_err());
        assert!(evaluate("2 3").is_err());
        assert!(evaluate("1 +").is_err());
    }
}
