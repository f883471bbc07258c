//! Exact fractions, so that `0.1` stays `0.1` and a cup is exactly sixteen tablespoons.

/// A fraction in lowest terms with a positive denominator.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Ratio {
    num: i128,
    den: i128,
}

const fn gcd(a: i128, b: i128) -> i128 {
    let (mut a, mut b) = (a.unsigned_abs(), b.unsigned_abs());
    while b != 0 {
        (a, b) = (b, a % b);
    }
    if a == 0 || a > i128::MAX as u128 {
        1
    } else {
        a.cast_signed()
    }
}

impl Ratio {
    /// One.
    pub const ONE: Self = Self::whole(1);

    /// A whole number.
    pub const fn whole(num: i128) -> Self {
        Self { num, den: 1 }
    }

    /// `num / den` in lowest terms. A zero denominator counts as one: the table's test refuses such a row, and the
    /// parser refuses such a fraction before it gets here.
    pub const fn new(num: i128, den: i128) -> Self {
        if den == 0 {
            return Self { num, den: 1 };
        }
        let common = gcd(num, den);
        let sign = if den < 0 { -1 } else { 1 };
        Self {
            num: sign * (num / common),
            den: sign * (den / common),
        }
    }

    /// The product of two factors of the table, which are small; saturates.
    pub(crate) const fn times(self, other: Self) -> Self {
        Self::new(
            self.num.saturating_mul(other.num),
            self.den.saturating_mul(other.den),
        )
    }

    /// The quotient of two factors of the table, which are small and not zero; saturates.
    pub(crate) const fn over(self, other: Self) -> Self {
        Self::new(
            self.num.saturating_mul(other.den),
            self.den.saturating_mul(other.num),
        )
    }

    /// The product, unless it is too large to hold.
    pub fn checked_mul(self, other: Self) -> Option<Self> {
        // Crosswise reduction first keeps the parts small.
        let a = gcd(self.num, other.den);
        let b = gcd(other.num, self.den);
        Some(Self {
            num: (self.num / a).checked_mul(other.num / b)?,
            den: (self.den / b).checked_mul(other.den / a)?,
        })
    }

    /// The sum, unless it is too large to hold.
    pub fn checked_add(self, other: Self) -> Option<Self> {
        if self.den == other.den {
            return Some(Self::new(self.num.checked_add(other.num)?, self.den));
        }
        let left = self.num.checked_mul(other.den)?;
        let right = other.num.checked_mul(self.den)?;
        Some(Self::new(
            left.checked_add(right)?,
            self.den.checked_mul(other.den)?,
        ))
    }

    /// The same size with the other sign.
    #[must_use]
    pub const fn negated(self) -> Self {
        Self {
            num: -self.num,
            den: self.den,
        }
    }

    /// Below zero.
    pub const fn is_negative(self) -> bool {
        self.num < 0
    }

    /// Exactly zero.
    pub const fn is_zero(self) -> bool {
        self.num == 0
    }

    /// The whole number it is, if it is one.
    pub const fn as_whole(self) -> Option<i128> {
        if self.den == 1 { Some(self.num) } else { None }
    }

    /// The part above the line.
    pub const fn numerator(self) -> i128 {
        self.num
    }

    /// The part below the line; positive.
    pub const fn denominator(self) -> i128 {
        self.den
    }

    /// The nearest double, for parts below 2^53; within two units in the last place otherwise.
    pub const fn to_f64(self) -> f64 {
        self.num as f64 / self.den as f64
    }

    /// `value` times this. Exact where multiplying by the numerator or dividing by the denominator alone is.
    pub fn apply(self, value: f64) -> f64 {
        value * self.num as f64 / self.den as f64
    }

    /// `value` divided by this.
    pub fn unapply(self, value: f64) -> f64 {
        value * self.den as f64 / self.num as f64
    }
}

#[cfg(test)]
mod tests {
    use super::Ratio;

    #[test]
    fn fractions_are_exact_and_in_lowest_terms() {
        assert_eq!(Ratio::new(6, -4), Ratio::new(-3, 2));
        assert_eq!(Ratio::new(1, 10).to_f64(), 0.1);
        assert_eq!(Ratio::new(2, 3).checked_mul(Ratio::new(3, 2)), Some(Ratio::ONE));
        assert_eq!(
            Ratio::new(1, 3).checked_add(Ratio::new(1, 6)),
            Some(Ratio::new(1, 2))
        );
        assert_eq!(Ratio::whole(i128::MAX).checked_mul(Ratio::whole(3)), None);
    }
}
