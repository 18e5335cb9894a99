//! The air that the wood is worked in, and the air that it lives in.

/// One air: how damp and how warm.
#[derive(Debug, Clone, Copy)]
pub struct Air {
    /// Relative humidity, percent.
    pub humidity: f64,
    /// Temperature, °C.
    pub temperature: f64,
}

/// Shop and home.
#[derive(Debug, Clone, Copy)]
pub struct Climate {
    /// The shop, while the piece is made.
    pub shop: Air,
    /// The home in its driest season.
    pub dry: Air,
    /// The home in its dampest season.
    pub damp: Air,
}

impl Default for Climate {
    fn default() -> Self {
        let air = |humidity, temperature| Air {
            humidity,
            temperature,
        };
        Climate {
            shop: air(45.0, 20.0),
            dry: air(30.0, 20.0),
            damp: air(60.0, 24.0),
        }
    }
}
