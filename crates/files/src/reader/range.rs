//! What a value may be, and whose it is, so that a refusal can say both.

/// A length from `least` to `most`, both in mm.
pub(crate) struct Lengths {
    pub of: &'static str,
    pub least: f64,
    pub most: f64,
}

impl Lengths {
    pub const fn new(of: &'static str, least: f64, most: f64) -> Self {
        Lengths { of, least, most }
    }
}

/// An angle from `least` to `most`, both in degrees.
pub(crate) struct Angles {
    pub of: &'static str,
    pub least: f64,
    pub most: f64,
}

/// A count from `least` to `most`; `rule` is the whole sentence.
pub(crate) struct Wholes {
    pub rule: &'static str,
    pub least: usize,
    pub most: usize,
}

/// A bare number from `least` to `most` in the words of `of`.
pub(crate) struct Numbers {
    pub of: &'static str,
    pub in_what: &'static str,
    pub least: f64,
    pub most: f64,
}
