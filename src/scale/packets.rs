//! What a packet still holds after a mix, and how many packets to buy.

use super::shopping::whole_up;
use crate::units::Range;

/// What is left of a packet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct After {
    /// What is left, never below nothing.
    pub left: Range,
    /// What is missing, never below nothing.
    pub missing: Range,
}

/// A packet after some of it was used, all in one unit. Source: own arithmetic.
pub fn after(there: Range, used: Range) -> After {
    let rest = there - used;
    let above = |value: f64| value.max(0.0);
    After {
        left: Range::new(above(rest.low), above(rest.best), above(rest.high)),
        missing: Range::new(above(-rest.high), above(-rest.best), above(-rest.low)),
    }
}

/// Whole packs that cover an amount; nothing where a pack holds nothing. Source: own arithmetic.
pub fn whole(amount: f64, pack: f64) -> Option<u64> {
    (pack > 0.0).then(|| whole_up(amount / pack))
}

/// What an amount costs at the price of a pack: only the used part of it counts. Source: own arithmetic.
pub fn used_cost(amount: Range, pack: f64, price: f64) -> Option<Range> {
    (pack > 0.0).then(|| amount.scale(price / pack))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_packet_runs_out() {
        let short = after(Range::exact(100.0), Range::exact(120.0));
        assert_eq!((short.left.best, short.missing.best), (0.0, 20.0));
        let perhaps = after(Range::exact(100.0), Range::new(90.0, 100.0, 110.0));
        assert_eq!((perhaps.left.low, perhaps.left.high), (0.0, 10.0));
        assert_eq!((perhaps.missing.low, perhaps.missing.high), (0.0, 10.0));
    }

    #[test]
    fn packs_are_whole_and_cost_is_not() {
        assert_eq!(
            (whole(0.3, 0.1), whole(0.31, 0.1), whole(1.0, 0.0)),
            (Some(3), Some(4), None)
        );
        assert_eq!(used_cost(Range::exact(50.0), 250.0, 7.5), Some(Range::exact(1.5)));
    }
}
